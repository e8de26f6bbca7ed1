"""Where a generator runs on its map, and what a change would bring."""

from ozonewright.questions.generator.answer import generator
from ozonewright.questions.generator.points import Pattern, Point, Price, Question, TubeRun, Wish
from ozonewright.questions.generator.result import Generator
from ozonewright.questions.generator.warmth import Warmth, warmth

__all__ = [
    "Generator",
    "Pattern",
    "Point",
    "Price",
    "Question",
    "TubeRun",
    "Warmth",
    "Wish",
    "generator",
    "warmth",
]
