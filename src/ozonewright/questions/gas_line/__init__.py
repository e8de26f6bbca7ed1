"""Gas line: what flows, where the pressure goes, what to change."""

from ozonewright.questions.gas_line.answer import gas_line
from ozonewright.questions.gas_line.result import ChangeRow, GasLine, PartRow, SuckBack

__all__ = ["ChangeRow", "GasLine", "PartRow", "SuckBack", "gas_line"]
