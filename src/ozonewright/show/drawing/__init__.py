"""The gas line as a workshop drawing: a section in flow order, profiles below it."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from pathlib import Path

from ozonewright.records.rig import Rig
from ozonewright.show.drawing.figures import drop, is_bottleneck, kpa
from ozonewright.show.drawing.layout import Item, items_of, places_of
from ozonewright.show.drawing.pen import moved, n, text
from ozonewright.show.drawing.readout import Readout
from ozonewright.show.drawing.tall import tall
from ozonewright.show.drawing.wide import wide

__all__ = ["Drawing", "Readout", "drawing_file", "rig_drawing", "style"]

MARGIN = 6.0


@dataclass(frozen=True, slots=True)
class Drawing:
    """One line drawn twice: across, and downwards for a narrow sheet."""

    wide: str
    tall: str
    caption: str
    words: str
    """The same without a picture."""


def style() -> str:
    """Return the look of a drawing that stands on a page; the page gives the colours."""
    return _read("drawing.css")


def _read(name: str) -> str:
    return (Path(__file__).parent / name).read_text(encoding="utf-8")


def rig_drawing(rig: Rig, readout: Readout | None = None) -> Drawing:
    """Return the drawing of a rig, with what is known of the gas in it."""
    known = readout or Readout()
    items = items_of(rig)
    places = places_of(items)
    words = described(rig, items, known)
    title = f"Gas line {rig.label}" if rig.label else "Gas line"
    across = _svg(*wide(items, places, known), title, words, "across")
    down = _svg(*tall(items, places, known), title, words, "down")
    return Drawing(across, down, known.caption, words)


def described(rig: Rig, items: list[Item], readout: Readout) -> str:
    """Return the drawing in words: every part in flow order, its facts, its loss."""
    said = []
    for item in items:
        parts = [item.name, *item.facts]
        if item.parts[0].after and item is not items[0]:
            parts += [f"after {' and '.join(item.parts[0].after)}"]
        lost = drop(item, readout)
        if lost is not None and item.before:
            parts.append(f"loses {kpa(lost)} kPa")
        if is_bottleneck(item, readout):
            parts.append("the bottleneck")
        said.append(", ".join(parts))
    return "; ".join(said) + "."


def drawing_file(rig: Rig, readout: Readout | None = None) -> str:
    """Return the drawing as a file of its own, light or dark as the system is."""
    known = readout or Readout()
    items = items_of(rig)
    strokes, width, height = wide(items, places_of(items), known)
    title = f"Gas line {rig.label}" if rig.label else "Gas line"
    strokes = [moved(0.0, 44.0, strokes), text(0.0, 16.0, title, "start", "strong")]
    if known.caption:
        strokes.append(text(0.0, height + 72.0, known.caption, "start", "soft"))
    height += 84.0 if known.caption else 50.0
    words = described(rig, items, known)
    return _svg(strokes, width, height, title, words, "file", _read("alone.css") + style()) + "\n"


def _svg(
    strokes: list[str], width: float, height: float, title: str, words: str, name: str,
    look: str = "",
) -> str:  # fmt: skip
    wide_, high = width + 2 * MARGIN, height + 2 * MARGIN
    inside = f"<style>{look}</style>" if look else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="rig {name}" '
        f'viewBox="{n(-MARGIN)} {n(-MARGIN)} {n(wide_)} {n(high)}" width="{n(wide_)}" '
        f'height="{n(high)}" role="img" aria-labelledby="rig-{name}-title rig-{name}-words">'
        f'<title id="rig-{name}-title">{escape(title)}</title>'
        f'<desc id="rig-{name}-words">{escape(words)}</desc>{inside}{"".join(strokes)}</svg>'
    )
