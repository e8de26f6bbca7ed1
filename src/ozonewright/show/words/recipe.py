"""What the recipe says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity
from ozonewright.units import Kind

SENTENCES: dict[str, Callable[..., str]] = {
    "recipe-short": lambda on_time, share: (
        f"Short: each second at the stopwatch is {percent(share)} of the result. "
        "A stronger titrant allows a longer run."
    ),
    "recipe-titre-small": lambda titre, least: (
        f"The titre stays below 30 % of the burette ({quantity(least, Kind.VOLUME, 'mL')}): run "
        "longer or take a weaker titrant."
    ),
    "recipe-total-far": lambda ozone: (
        f"{quantity(ozone, Kind.AMOUNT, 'mmol', figures=2)} of ozone in all; the published "
        "procedure aims at about 1 mmol."
    ),
    "recipe-flow-unknown": lambda: (
        "Flow not stated: keep it at or below 1 L/min through the bottles."
    ),
    "recipe-output-guessed": lambda share: (
        f"The output is known to {percent(share)} only: stop early if the second bottle colours, "
        "and plan again from the first titre."
    ),
}
