"""The longest list of a left-handed bench in 64ths of an inch, the bridge off: the board, its frets, the seam, the old
footprint and two of its pin holes. Every figure is invented: true places of a neck that leans, to the nearest 64th.
"""

from functools import reduce

from app.edit import edits
from app.edit.start import first_questions
from app.file.settings import ToolsAtHand
from geometry.job import Job

BOARD = ("1 23/32", "2 7/32", "17 1/4", "17 23/64", "17 15/32", "17 23/64", "2 5/64")
FRET_12 = ("yes", "12 21/32", "4 19/32", "yes", "12 21/32", "4 45/64")
FRETS = ("1 27/64", "4 1/32", "6 11/32", "8 27/64", "10 17/64", "12 21/32") * 2
HEIGHTS = ("7/32", "7/32", "3/8", "3/8")
SEAM = ("17 29/32", "29 1/8", "1 1/32", "1 3/64", "17 57/64", "29 7/64", "1 13/64", "1 33/64", "11 7/32")
BASS = ("25 3/64", "25 1/32", "26 3/16", "1 61/64", "1 61/64")
TREBLE = ("25 3/32", "25 9/64", "26 5/16", "1 37/64", "1 35/64")
FOOTPRINT = ("5 63/64", "5 63/64", "6 3/32", "6 3/32", "1 5/32", "1 5/32")
PINS = ("2 ; 2 3/16", "1 55/64 ; 2 3/64", "4 3/64 ; 4 15/64") * 2
TYPED = (*BOARD, *FRET_12, *FRETS, *HEIGHTS, *SEAM, *BASS, *TREBLE, *FOOTPRINT, *PINS)
LAST, DIAGONAL = "r60", "r5"
"""The last of all, and the board's diagonal from the nut at bass."""


def long_list(**otherwise: str) -> Job:
    """The job with its readings typed, those in `otherwise` (by their ids) otherwise, or left empty."""
    job = first_questions.begin(
        hand="left",
        string_set="steel 12-54",
        measuring="whole top with old work",
        at_hand=ToolsAtHand(unit="in", rule="rule 1/64", caliper=""),
        strings_on=False,
    )
    typed = {f"r{number}": text for number, text in enumerate(TYPED, 1)} | otherwise
    return reduce(lambda made, one: edits.set_value(made, *one), typed.items(), job)
