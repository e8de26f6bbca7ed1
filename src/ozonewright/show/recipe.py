"""The recipe as text, and as a sheet to print and fill in."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from ozonewright import __version__
from ozonewright.questions.recipe import Recipe
from ozonewright.show.numbers import quantity
from ozonewright.show.words import sentence
from ozonewright.show.wrap import wrapped
from ozonewright.units import Kind, number

CAUTIONS = (
    "Destruct or outdoors behind the last bottle; ozone at 0.1 ppm is already too much to breathe. "
    "Nobody smells it for long.",
    "Gas on first and off last; an empty safety bottle and a check valve before the first bottle.",
    "Acid into water, goggles on. High voltage off and earthed before a joint is touched.",
)


def _ml(volume: float | None, decimals: int = 0) -> str:
    return f"{number(volume or 0.0, Kind.VOLUME, 'mL'):.{decimals}f} mL"


def _time(seconds: float) -> str:
    minutes, rest = divmod(round(number(seconds, Kind.TIME, "s")), 60)
    return f"{minutes} min {rest:02d} s" if minutes else f"{rest} s"


def answer_line(plan: Recipe) -> str:
    """Return the one line that answers: how long, and what the burette will say."""
    assert plan.titre is not None and plan.on_time is not None  # noqa: PT018
    u = number(plan.titre.u, Kind.VOLUME, "mL")
    titre = number(plan.titre.value, Kind.VOLUME, "mL")
    expected = f"{titre:.1f} ± {u:.1f} mL" if u >= 0.05 else f"{titre:.1f} mL"
    return f"{_time(plan.on_time)} of gas; expect about {expected} in the first bottle"


def steps(plan: Recipe) -> Iterator[str]:
    """Yield the steps at the bench, numbers already in them."""
    assert plan.on_time is not None
    iodate = quantity(plan.iodate or 0.0, Kind.MASS, "g", figures=3)
    strength = quantity(plan.titrant or 0.0, Kind.CONCENTRATION, "mol/L", figures=3)
    poured = (
        f"{_ml(plan.acid_volume)} of {plan.acid} "
        f"{quantity(plan.acid_strength or 0.0, Kind.CONCENTRATION, 'mol/L', figures=3)}"
        if plan.acid_volume
        else f"{quantity(plan.acid_amount or 0.0, Kind.AMOUNT, 'mmol', figures=2)} of {plan.acid}"
    )
    yield (
        f"Standardise the thiosulfate ({strength}): about {iodate} of potassium iodate, weighed to "
        f"0.1 mg, in 250 mL; 10 mL of it, iodide and acid take about {_ml(plan.iodate_titre, 1)}."
    )
    yield (
        f"Two bottles in series, each {_ml(plan.volume)} of water with "
        f"{quantity(plan.iodide or 0.0, Kind.MASS, 'g', figures=2)} of potassium iodide; open "
        "tube, 15 cm of liquid or more, no acid yet."
    )
    yield "Blank: a third bottle of the same, the same acid and wait, no ozone: write its titre."
    yield "Gas on, discharge on, vent to the tail until the tube is warm; note the flow."
    yield f"Divert into the bottles for {_time(plan.on_time)}; note both ends to the second."
    yield f"Divert back, discharge off, purge, lift the tubes; at once {poured} into each bottle."
    yield (
        f"Titrate at once to pale yellow, starch, colourless: about "
        f"{_ml(plan.titre.value if plan.titre else 0.0, 1)} in the first bottle, about "
        f"{_ml(plan.guard_titre, 1)} in the guard bottle."
    )


def recipe_text(plan: Recipe) -> str:
    """Return the recipe for a terminal."""
    lines = [answer_line(plan), ""]
    lines += [f"  {number} {step}" for number, step in enumerate(steps(plan), start=1)]
    lines += ["", "Take care"]
    lines += [f"  {caution}" for caution in CAUTIONS]
    if plan.notes:
        lines += ["", "Notes"]
        lines += [f"  {sentence(note)}" for note in plan.notes]
    if plan.unknowns:
        lines += [
            "",
            "Not stated: "
            + ", ".join(name.replace("_", " ") for name in plan.unknowns)
            + "; the published procedure's figures stand in their place.",
        ]
    lines.append("Sources: " + ", ".join(plan.sources) + " (docs/sources.md).")
    return "\n".join(_wrap(lines)) + "\n"


def _wrap(lines: list[str]) -> Iterator[str]:
    for line in lines:
        lead = " " * (len(line) - len(line.lstrip()))
        further = " " * max(len(lead) + (2 if line[:3].strip().isdigit() else 0), 2)
        yield from wrapped(line.lstrip(), lead, further) or [""]


BLANKS = (
    ("started", "date and time"),
    ("on_time", "on-time, both ends"),
    ("flow", "flow, temperature, pressure"),
    ("power", "power at the plug"),
    ("titre 1", "titre, first bottle / mL"),
    ("titre 2", "titre, guard bottle / mL"),
    ("blank", "blank / mL"),
    ("standard", "iodate / g, its titre / mL"),
    ("remark", "remark"),
)

STYLE = """
@page { margin: 16mm; }
body { font: 12pt/1.45 system-ui, sans-serif; color: #1D2733; background: #fff; max-width: 178mm;
       margin: 0 auto; font-variant-numeric: tabular-nums; }
h1 { font-size: 20pt; margin: 0 0 2mm; } h2 { font-size: 12pt; margin: 6mm 0 1mm; }
ol { padding-left: 6mm; } li { margin: 0 0 2.2mm; } p { margin: 1mm 0; }
.soft { color: #5C6773; } table { width: 100%; border-collapse: collapse; margin-top: 2mm; }
td { border-bottom: 0.3mm solid #1D2733; height: 9mm; vertical-align: bottom; }
td:first-child { width: 62mm; color: #5C6773; }
footer { margin-top: 8mm; border: 0.3mm solid #1D2733; display: flex; }
footer div { flex: 1; padding: 1.5mm 2.5mm; border-left: 0.3mm solid #1D2733; }
footer div:first-child { border-left: 0; } footer small { display: block; color: #5C6773; }
"""


def recipe_sheet(plan: Recipe) -> str:
    """Return one HTML page to print (A4 or Letter): the steps, and blanks to fill in by pen."""
    items = "".join(f"<li>{escape(step)}</li>" for step in steps(plan))
    cautions = "".join(f"<p>{escape(text)}</p>" for text in CAUTIONS)
    notes = "".join(f"<p>{escape(sentence(note))}</p>" for note in plan.notes)
    rows = "".join(f"<tr><td>{escape(words)}</td><td></td></tr>" for _, words in BLANKS)
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>Titration sheet</title><style>{STYLE}</style></head><body><main>"
        f"<h1>{escape(answer_line(plan))}</h1>"
        f'<p class="soft">Titration of ozone in iodide, two bottles.</p><ol>{items}</ol>'
        f"<h2>Take care</h2>{cautions}"
        + (f"<h2>Notes</h2>{notes}" if notes else "")
        + f"<h2>Readings</h2><table>{rows}</table></main>"
        "<footer><div><small>setting</small>&nbsp;</div>"
        "<div><small>date, initials</small>&nbsp;</div>"
        f"<div><small>ozonewright</small>{escape(__version__)}</div></footer></body></html>\n"
    )
