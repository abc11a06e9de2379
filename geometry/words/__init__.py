"""What points, lines, sides and readings are called, as the trade says it: bass and treble by the job's hand.

The job's names of points are for files (`nut.left`); a person reads “nut, bass” in a table and “nut bass” in a
sentence. A name that a person made up stays as it is, and stands in quotes where it is part of a sentence. Every
sentence takes its names from here, where it is composed; no finished sentence is changed.
"""

from geometry.words.joined_words import (
    check,
    first_large,
    first_small,
    how_many,
    job_line,
    joined,
    several,
    string,
    strings,
)
from geometry.words.names_of_places import (
    area,
    beside,
    brace,
    called,
    is_own,
    line,
    line_called,
    other_side,
    point,
    side,
    trial,
)
from geometry.words.names_of_readings import (
    INSIDE,
    NAMES,
    Names,
    fineness,
    instrument,
    instrument_short,
    much,
    reading,
    reading_called,
    reading_inside,
    reading_parts,
    readings_called,
    tool,
    value,
)

__all__ = [
    "INSIDE",
    "NAMES",
    "Names",
    "area",
    "beside",
    "brace",
    "called",
    "check",
    "fineness",
    "first_large",
    "first_small",
    "how_many",
    "instrument",
    "instrument_short",
    "is_own",
    "job_line",
    "joined",
    "line",
    "line_called",
    "much",
    "other_side",
    "point",
    "reading",
    "reading_called",
    "reading_inside",
    "reading_parts",
    "readings_called",
    "several",
    "side",
    "string",
    "strings",
    "tool",
    "trial",
    "value",
]
