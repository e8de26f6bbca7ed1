"""What a generator takes at the plug, what its gas gets, and what a kilowatt-hour brings."""

from ozonewright.questions.power.answer import Asked, Manley, power
from ozonewright.questions.power.loop import MeasuredLoop, measured_loop
from ozonewright.questions.power.result import Power
from ozonewright.questions.power.runs import power_of_runs

__all__ = ["Asked", "Manley", "MeasuredLoop", "Power", "measured_loop", "power", "power_of_runs"]
