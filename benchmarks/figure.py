"""What a benchmark hands to the runner."""

from typing import NamedTuple


class Figure(NamedTuple):
    """One measured ratio or time, and the bound it has to keep.

    `at_most` or `at_least` is the bound; with neither, the figure is only told.
    """

    what: str
    value: float
    unit: str = "×"
    at_most: float | None = None
    at_least: float | None = None

    @property
    def holds(self) -> bool:
        """Whether the figure keeps its bound."""
        return (self.at_most is None or self.value <= self.at_most) and (
            self.at_least is None or self.value >= self.at_least
        )

    @property
    def bound(self) -> str:
        """The bound in words."""
        if self.at_most is not None:
            return f"at most {self.at_most:g}"
        return f"at least {self.at_least:g}" if self.at_least is not None else ""
