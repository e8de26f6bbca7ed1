"""The on-time of a reaction on a line: when to look, when it should be done, when to stop."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.figures import WIDTH, Axis, plot, words_at
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

HEIGHT, LEFT, RIGHT = 118.0, 10.0, 18.0
LINE, BAND = 70.0, 7.0
ROOM = 1.3
"""What the axis leaves free beyond the last mark, for its words."""
CLOSE = 16.0
"""So near to a line a number would be struck through."""
ROWS = (16.0, 34.0)
"""Heights of the words over the line: those of look and stop, and that of the on-time."""


def marks_figure(plan: ReactionPlan) -> str:
    """Return the figure, or nothing while there is no on-time."""
    on_time, look, stop = plan.on_time, plan.look_from, plan.stop_by
    if not isinstance(on_time, Estimate) or look is None or stop is None:
        return ""
    low, high = (number(end, Kind.TIME, "min") for end in on_time.interval)
    middle, look, stop = (number(t, Kind.TIME, "min") for t in (on_time.value, look, stop))
    axis = Axis("on-time, min", max(high, stop) * ROOM)
    title = (
        f"On-time: look from {look:.0f} min, done at {middle:.0f} (95 %: {low:.0f} to {high:.0f}), "
        f"stop by {stop:.0f} min"
    )
    parts = [
        *_scale(axis),
        *_band(axis, low, high, middle),
        *_mark(axis, look, f"look from {look:.0f}", "end", 0),
        *_mark(axis, middle, f"{middle:.0f}", _beside(axis, middle, stop), 1),
        *_mark(axis, stop, f"stop by {stop:.0f}", "start", 0, odd=True),
    ]
    return plot(title, parts, HEIGHT)


def _across(axis: Axis, value: float) -> float:
    return LEFT + (WIDTH - LEFT - RIGHT) * value / axis.end


def _beside(axis: Axis, middle: float, stop: float) -> str:
    """Return where the on-time's number stands: to the left where the line of stop-by is near."""
    near = abs(_across(axis, stop) - _across(axis, middle)) < CLOSE
    return "end" if near else "middle"


def _scale(axis: Axis) -> Iterator[str]:
    yield f'<path class="axis" d="M{LEFT:g} {LINE:g}H{WIDTH - RIGHT:g}"/>'
    for value in axis.ticks():
        at = _across(axis, value)
        yield f'<path class="axis" d="M{at:.1f} {LINE:g}v4"/>'
        yield words_at(at, LINE + 18.0, f"{value:g}", "middle", "faint")
    yield words_at(WIDTH - RIGHT, HEIGHT - 8.0, axis.words, "end", "faint")


def _band(axis: Axis, low: float, high: float, middle: float) -> Iterator[str]:
    left, right = _across(axis, low), _across(axis, high)
    yield (
        f'<rect class="point" x="{left:.1f}" y="{LINE - BAND:g}" width="{right - left:.1f}" '
        f'height="{BAND:g}"/>'
    )
    yield f'<path class="axis" d="M{_across(axis, middle):.1f} {LINE:g}V{ROWS[1] + 4:g}"/>'


def _mark(
    axis: Axis, value: float, words: str, anchor: str, row: int, *, odd: bool = False
) -> Iterator[str]:
    at = _across(axis, value)
    if row == 0:
        kind = "level" if odd else "axis"
        yield f'<path class="{kind}" d="M{at:.1f} {LINE:g}V{ROWS[0] - 10:g}"/>'
        at += 5.0 if anchor == "start" else -5.0
    elif anchor == "end":
        at -= 5.0
    yield words_at(at, ROWS[row], words, anchor, "odd" if odd else "")
