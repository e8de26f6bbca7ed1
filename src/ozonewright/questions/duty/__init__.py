"""How warm the generator becomes on a timer, and what it delivers per clock hour."""

from ozonewright.questions.duty.answer import Timer, duty
from ozonewright.questions.duty.result import Duty, Pattern

__all__ = ["Duty", "Pattern", "Timer", "duty"]
