"""Output: what the generator delivers, how sure that is, which reading is the weakest."""

from ozonewright.questions.output.answer import output
from ozonewright.questions.output.result import BottleRow, Output

__all__ = ["BottleRow", "Output", "output"]
