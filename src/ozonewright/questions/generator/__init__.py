"""Where a generator runs on its map, and what a change would bring."""

from ozonewright.questions.generator.answer import Price, Question, generator
from ozonewright.questions.generator.points import Point, TubeRun
from ozonewright.questions.generator.result import Generator
from ozonewright.questions.generator.wishes import Wish

__all__ = ["Generator", "Point", "Price", "Question", "TubeRun", "Wish", "generator"]
