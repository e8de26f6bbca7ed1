"""What is true of the invented runs; typed here and nowhere else."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

MARK = "Invented: made by `ozonewright demo`. Nobody measured this."


@dataclass(frozen=True, slots=True)
class Setting:
    """What is true of every run of a setting; quantities as text, as in a document."""

    name: str
    output: str
    """Ozone that reaches the bottles."""
    capture: str
    """By each bottle, of what reaches it."""
    feed: str
    """As the run document has it."""
    flow: str
    power: str
    rig: str = "workshop"
    """The label of its gas line."""
    surplus: str = "0 mg"
    """Reads as ozone in each bottle, whatever the minutes, and is in no reagent blank."""


@dataclass(frozen=True, slots=True)
class Planned:
    """One run: what was planned and typed, and what was true of it alone."""

    label: str
    setting: str
    started: datetime
    typed: str
    """The on-time in the document."""
    really: str = ""
    """The on-time there was, where the document has another."""
    loss: str = "0 %"
    """Lost on the way to the bottles, in this run alone."""
    discharge: bool = True
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Truth:
    """Everything the invented runs are made from."""

    settings: tuple[Setting, ...]
    runs: tuple[Planned, ...]
    titrant: str = "0.0506 mol/L"
    blank: str = "0.10 mL"
    iodate: str = "0.8912 g"
    iodate_purity: str = "99.8 wt%"
    flask: str = "250 mL"
    aliquot: str = "10.00 mL"
    reading: str = "0.02 mL"
    """Standard deviation of a burette reading, and the step it is read to."""
    timing: str = "0.8 s"
    """Standard deviation of the on-time about the watch."""
    scatter: str = "0.7 %"
    """Standard deviation of the output from run to run."""


OXYGEN, AIR, SLOW = "concentrator 0.8 L/min", "pump air 2.0 L/min", "pump air 1.0 L/min"

TRUTH = Truth(
    settings=(
        Setting(
            OXYGEN,
            output="0.620 g/h",
            capture="97.4 %",
            feed='{ oxygen = "93 vol%", nitrogen = "2.5 vol%", argon = "4.5 vol%" }',
            flow="0.80 L/min ± 4 %",
            power="38 W",
        ),
        Setting(
            AIR,
            output="0.190 g/h",
            capture="97.0 %",
            feed='"dry air"',
            flow="2.0 L/min ± 4 %",
            power="38 W",
            rig="workshop, pump air",
            surplus="1.5 mg",
        ),
        Setting(
            SLOW,
            output="0.165 g/h",
            capture="97.6 %",
            feed='"dry air"',
            flow="1.0 L/min ± 4 %",
            power="38 W",
            rig="workshop, pump air, 1 L/min",
        ),
    ),
    runs=(
        Planned("C1", OXYGEN, datetime(2026, 5, 9, 9, 40), "120 s"),
        Planned("C2", OXYGEN, datetime(2026, 5, 9, 10, 20), "240 s"),
        Planned("C3", OXYGEN, datetime(2026, 5, 9, 11, 5), "180 s"),
        Planned(
            "C4",
            OXYGEN,
            datetime(2026, 5, 9, 11, 50),
            "300 s",
            really="270 s",
            remark="Planned 5 min. Log: gas on 11:50:05, gas off 11:54:35.",
        ),
        Planned("C5", OXYGEN, datetime(2026, 5, 10, 9, 30), "240 s"),
        Planned("A1", AIR, datetime(2026, 5, 16, 9, 30), "360 s"),
        Planned("A2", AIR, datetime(2026, 5, 16, 10, 30), "960 s"),
        Planned("A3", AIR, datetime(2026, 5, 16, 11, 40), "480 s"),
        Planned("A4", AIR, datetime(2026, 5, 16, 14, 10), "720 s"),
        Planned("A0", AIR, datetime(2026, 5, 16, 15, 20), "720 s", discharge=False),
        Planned("P1", SLOW, datetime(2026, 5, 23, 10, 0), "600 s"),
        Planned("P2", SLOW, datetime(2026, 5, 23, 16, 30), "600 s", loss="8 %"),
    ),
)
