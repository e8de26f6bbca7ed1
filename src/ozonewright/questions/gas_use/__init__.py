"""Gas use: how long a cylinder lasts, and what an hour, a gram and a mmol cost."""

from ozonewright.questions.gas_use.answer import gas_use
from ozonewright.questions.gas_use.flows import FlowPoint
from ozonewright.questions.gas_use.result import AlternativeRow, FlowRow, GasUse
from ozonewright.questions.gas_use.supply import Bottled, Money, Rest, Supply

__all__ = [
    "AlternativeRow",
    "Bottled",
    "FlowPoint",
    "FlowRow",
    "GasUse",
    "Money",
    "Rest",
    "Supply",
    "gas_use",
]
