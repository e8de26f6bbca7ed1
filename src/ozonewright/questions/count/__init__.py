"""Count: what the events at the bench have delivered so far, and what comes next."""

from ozonewright.questions.count.answer import Mark, Subject, count
from ozonewright.questions.count.result import Count

__all__ = ["Count", "Mark", "Subject", "count"]
