"""How warm the generator becomes on a timer, and what it delivers per clock hour."""

from ozonewright.questions.duty.answer import Timer, duty
from ozonewright.questions.duty.bodies import Bodies, elsewhere, fitted_bodies, typed_body
from ozonewright.questions.duty.result import Duty, Pattern

__all__ = [
    "Bodies",
    "Duty",
    "Pattern",
    "Timer",
    "duty",
    "elsewhere",
    "fitted_bodies",
    "typed_body",
]
