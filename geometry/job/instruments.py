"""The bench's measuring instruments: how finely each can be read, and how far its own zero may be out.

The figures are standard deviations in mm. Reading and setting are taken together: a rule laid on an edge by eye and
read by eye. Common practice, no source, unless a line says otherwise.
"""

import msgspec


class Instrument(msgspec.Struct, frozen=True, kw_only=True):
    """One instrument: `reading` and `zero` are standard deviations (mm), `legal` the accuracy class or ''.

    `reading` belongs to each reading alone, `zero` is common to the readings of one laying. `legal` names the class of
    Directive 2014/32/EU annex X (MI-008) whose error over the length is common to all readings with that rule.
    """

    says: str
    reading: float
    zero: float
    legal: str = ""


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
