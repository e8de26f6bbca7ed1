"""Parts joined to a network: branches between junctions, suppliers and ends."""

from ozonewright.physics.gas.network.branch import Branch, Network
from ozonewright.physics.gas.network.solve import Solution, solve

__all__ = ["Branch", "Network", "Solution", "solve"]
