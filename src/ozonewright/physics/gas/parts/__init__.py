"""The parts of a gas line: each a law of pressure, one small file for each.

A law answers one thing: which pressure must stand before the part so that a flow passes it against
the pressure behind it. Flow is moles of dry gas per second, pressure is absolute. Laws that gas can
pass either way are the same both ways.
"""
