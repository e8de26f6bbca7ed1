"""Discharge tube as two capacitors in series: the dielectric, and the gap that burns."""

from __future__ import annotations

from math import sqrt

import numpy as np

from ozonewright.errors import NotApplicable
from ozonewright.physics import Real


def discharge_power_manley_1943(
    *,
    frequency: Real,
    dielectric_capacitance: Real,
    gap_capacitance: Real,
    gap_voltage: Real,
    peak_voltage: Real,
) -> Real:
    """Power that the gas of a discharge tube gets from an alternating voltage.

    Parameters
    ----------
    frequency : float
        Of the voltage. [Hz]
    dielectric_capacitance : float
        Of all dielectric between the electrodes, above zero. [F]
    gap_capacitance : float
        Of the gap without discharge. [F]
    gap_voltage : float
        Over the gap while it burns, taken as constant. [V]
    peak_voltage : float
        Of the tube, from nought to the top. [V]

    Returns
    -------
    power : float
        Mean over a cycle. [W]

    Raises
    ------
    None

    Valid
    -----
    Peak at or above the ignition voltage, below which nothing burns and the formula is negative;
    one gap, all of it burning, equal in both directions; any form of voltage that rises and falls
    once a cycle.

    Source
    ------
    manley_1943
    pipa_2019, review of the equivalent circuit

    Notes
    -----
    P = 4 f C_d V_g [V_p - (1 + C_g/C_d) V_g], which is f times the area of the parallelogram of
    charge against voltage. From memory; derived anew from the two capacitors.
    """
    ignition = ignition_voltage(
        dielectric_capacitance=dielectric_capacitance,
        gap_capacitance=gap_capacitance,
        gap_voltage=gap_voltage,
    )
    return 4.0 * frequency * dielectric_capacitance * gap_voltage * (peak_voltage - ignition)


def ignition_voltage(
    *, dielectric_capacitance: Real, gap_capacitance: Real, gap_voltage: Real
) -> Real:
    """Peak voltage of a tube below which its gap does not go on burning.

    Parameters
    ----------
    dielectric_capacitance : float
        Of all dielectric between the electrodes, above zero. [F]
    gap_capacitance : float
        Of the gap without discharge. [F]
    gap_voltage : float
        Over the gap while it burns. [V]

    Returns
    -------
    voltage : float
        From nought to the top. [V]

    Raises
    ------
    None

    Valid
    -----
    A gap that burns each half cycle; the first ignition may need more.

    Source
    ------
    manley_1943

    Notes
    -----
    V = (1 + C_g/C_d) V_g
    """
    return (1.0 + gap_capacitance / dielectric_capacitance) * gap_voltage


def gap_capacitance(*, dielectric_capacitance: Real, cell_capacitance: Real) -> Real:
    """Capacitance of the gap alone, from that of the dielectric and of both in series.

    Parameters
    ----------
    dielectric_capacitance : float
        Steep sides of the loop. [F]
    cell_capacitance : float
        Flat sides of the loop: dielectric and gap in series. [F]

    Returns
    -------
    capacitance : float
        Of the gap. [F]

    Raises
    ------
    NotApplicable
        The cell has not less than the dielectric alone.

    Valid
    -----
    Cell below dielectric, both above zero.

    Source
    ------
    manley_1943

    Notes
    -----
    1/C_g = 1/C_c - 1/C_d
    """
    if np.any(np.asarray(cell_capacitance) >= dielectric_capacitance):
        raise NotApplicable(
            "two capacitors in series have less than either",
            where="cell capacitance",
            fix="Look whether the loop is a parallelogram with two steep and two flat sides.",
        )
    return cell_capacitance * dielectric_capacitance / (dielectric_capacitance - cell_capacitance)


def peak_of_sine(*, rms_voltage: Real) -> Real:
    """Peak of a sine from what a meter of rms reads.

    Parameters
    ----------
    rms_voltage : float
        Root of the mean square. [V]

    Returns
    -------
    voltage : float
        From nought to the top. [V]

    Raises
    ------
    None

    Valid
    -----
    A pure sine. A tube that burns bends the voltage of a soft supply: read the peak then.

    Source
    ------
    common_electrical
    """
    return sqrt(2.0) * rms_voltage
