"""The **tools at hand**: the rule or tape and the caliper that this bench reads with, and what is read with which.

They are asked once, with the unit, and remembered for the next job.
"""

from collections import Counter
from collections.abc import Iterable, Sequence

import msgspec

from app.file.settings import ToolsAtHand
from geometry import units
from geometry.job import Job, Reading
from geometry.job.measured.kinds import SHAPES
from geometry.job.measured.measuring_tools import DEFAULT
from geometry.units import Unit

RULE_64 = "rule 1/64"
RULES: dict[str, str] = {
    "rule 0.5": "Steel rule, ½ mm",
    "rule 1": "Steel rule, 1 mm",
    RULE_64: "Steel rule, 64ths",
    "tape 1/32": "Tape, 32nds",
}
"""What lengths are read with, and what it is called where it is chosen."""
CALIPERS: dict[str, str] = {
    "caliper 0.1": "Caliper, 0.1 mm",
    "caliper 0.05": "Caliper, 0.05 mm",
    "": "No caliper",
}
"""What small lengths are read with; without one it is the rule."""
UNITS: dict[Unit, str] = {"mm": "Millimetres", "in": "Inches, 64ths", "cm": "Centimetres"}


def usual_rule(unit: Unit) -> str:
    """The rule of a bench that reads in a unit."""
    return RULE_64 if unit == "in" else DEFAULT


def usual_caliper(unit: Unit) -> str:
    """The caliper of a bench that reads in a unit; "" for none: what reads in 64ths is a rule."""
    return "" if unit == "in" else "caliper 0.1"


def known(tools: ToolsAtHand) -> ToolsAtHand:
    """The tools as they are remembered, with the usual one where one is no tool here."""
    rule = tools.rule if tools.rule in RULES else usual_rule(tools.unit)
    return ToolsAtHand(unit=tools.unit, rule=rule, caliper=tools.caliper if tools.caliper in CALIPERS else "")


def read_with(readings: Iterable[Reading], rule: str, caliper: str) -> tuple[Reading, ...]:
    """The readings of a measuring list, to be read with the tools at hand: what asks for a caliper is read with the one
    there is, or where there is none with the rule.
    """

    def with_tool(reading: Reading) -> Reading:
        if reading.with_ is None:
            return reading
        tool = (caliper or rule) if reading.with_.startswith("caliper") else rule
        return msgspec.structs.replace(reading, with_=tool)

    return tuple(map(with_tool, readings))


def usual_in(job: Job) -> str | None:
    """What lengths of a job are mostly read with, in a job without any the usual rule of its unit; None where that is
    what a reading that does not say is read with.
    """
    found = Counter(r.with_ for r in job.readings if r.with_ in RULES)
    most = max(found, key=lambda name: found[name], default=usual_rule(job.unit))
    return None if most == DEFAULT else most


def read_alike(taken: Reading, others: Sequence[Reading]) -> list[Reading]:
    """Of the readings, those that are read with the same kinds of instrument as the one that is taken."""
    return [reading for reading in others if SHAPES[reading.kind].degrees == SHAPES[taken.kind].degrees]


def reads_64ths(reading: Reading) -> bool:
    """Whether a reading was typed as a fraction of an inch, and is said to be read with a rule in millimetres."""
    if not reading.parts or SHAPES[reading.kind].degrees:
        return False
    metric = (reading.with_ or DEFAULT) in ("rule 0.5", "rule 1") and reading.within is None and reading.sigma is None
    return (
        metric and bool(reading.parts) and not SHAPES[reading.kind].degrees and all(map(units.in_64ths, reading.parts))
    )
