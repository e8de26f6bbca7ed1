"""How warm the generator becomes on a timer, and what it delivers per clock hour."""

from ozonewright.questions.duty.answer import duty
from ozonewright.questions.duty.bodies import Bodies, elsewhere, fitted_bodies, typed_body
from ozonewright.questions.duty.cooling import Fan
from ozonewright.questions.duty.course import Warmed, warmed, warmed_once, warmed_through
from ozonewright.questions.duty.result import Duty, Pattern
from ozonewright.questions.duty.timer import STATES, Falling, Timer, Wet

__all__ = [
    "STATES",
    "Bodies",
    "Duty",
    "Falling",
    "Fan",
    "Pattern",
    "Timer",
    "Warmed",
    "Wet",
    "duty",
    "elsewhere",
    "fitted_bodies",
    "typed_body",
    "warmed",
    "warmed_once",
    "warmed_through",
]
