"""The bench's measuring instruments: how finely each can be read, and how far its own zero may be out.

The figures are standard deviations in mm. Reading and setting are taken together: a rule laid on an edge by eye and
read by eye. Common practice, no source, unless a line says otherwise.
"""

import math

import msgspec

LEGAL: dict[str, tuple[float, float]] = {"I": (0.1, 0.1), "II": (0.3, 0.2), "III": (0.6, 0.4)}
"""Greatest error a + b L (mm; L in metres, rounded up) of a measure of length of each accuracy class.

Directive 2014/32/EU, annex X (MI-008), chapter I, table 1.
"""


class Instrument(msgspec.Struct, frozen=True, kw_only=True):
    """One instrument: `reading` and `zero` are standard deviations (mm), `legal` the accuracy class or ''.

    `reading` belongs to each reading alone, `zero` is common to the readings of one laying. `legal` names the class of
    Directive 2014/32/EU annex X (MI-008) whose error over the length is common to all readings with that rule.
    """

    says: str
    reading: float
    zero: float
    legal: str = ""

    @property
    def per_metre(self) -> float:
        """The standard deviation (mm) of a rule's own error at the end of its first metre; 0 for a caliper.

        The legal limit there, taken as rectangular: limit / √3 (JCGM 100:2008, 4.3.7). A division error grows along
        the rule, so before that end it counts in proportion; what is out over a few millimetres is in `reading`.
        """
        return greatest_error(self.legal, 1000.0) / math.sqrt(3) if self.legal else 0.0


def greatest_error(legal: str, length: float) -> float:
    """The greatest error (mm) that the law allows a rule of class I, II or III over `length` mm.

    Directive 2014/32/EU, annex X (MI-008), chapter I: a + b L, L rounded up to the next whole metre.
    """
    a, b = LEGAL[legal]
    return a + b * math.ceil(length / 1000)


INSTRUMENTS: dict[str, Instrument] = {
    "rule 0.5": Instrument(says="steel rule, half millimetres", reading=0.20, zero=0.15, legal="II"),
    "rule 1": Instrument(says="steel rule, millimetres", reading=0.30, zero=0.20, legal="II"),
    "rule 1/64": Instrument(says="steel rule, 64ths of an inch", reading=0.18, zero=0.15, legal="II"),
    "tape 1/32": Instrument(says="tape, 32nds of an inch", reading=0.40, zero=0.40, legal="II"),
    "caliper 0.05": Instrument(says="caliper, twentieths of a millimetre", reading=0.06, zero=0.03),
    "caliper 0.1": Instrument(says="caliper, tenths of a millimetre", reading=0.10, zero=0.05),
    "pencil": Instrument(says="pencil mark on a straightedge", reading=0.30, zero=0.0),
}

DEFAULT = "rule 0.5"
"""What a reading that does not say is taken to be read with."""


class Gauge(msgspec.Struct, frozen=True, kw_only=True):
    """What an angle is taken with: `degrees` is the standard deviation of one setting, read off a protractor."""

    says: str
    degrees: float


GAUGES: dict[str, Gauge] = {"bevel gauge": Gauge(says="bevel gauge and protractor, whole degrees", degrees=0.5)}
"""What angles are taken with, the usual one first."""


def usual(degrees: bool) -> str:
    """What a reading that does not say is taken to be read with: an angle, or a length."""
    return next(iter(GAUGES)) if degrees else DEFAULT
