"""The shortest list of a left-handed bench in 64ths of an inch, as it was read: the board's sides and diagonals, and
the frets along both edges. Every figure is invented: true places, read with a hand's noise of 0.15 mm, to the nearest
64th.
"""

from functools import reduce

from app.edit import edits
from app.edit.start import first_questions
from app.file.settings import ToolsAtHand
from geometry.job import Job

BOARD = ("1 11/16", "2 3/16", "17 25/64", "17 15/32", "17 37/64", "17 1/2")
LEFT = ("1 27/64", "4 1/32", "6 23/64", "8 7/16", "10 9/32", "12 43/64")
RIGHT = ("1 27/64", "4 3/64", "6 23/64", "8 27/64", "10 9/32", "12 43/64")
"""The frets along the left edge, and along the right."""


def short_list(**slips: str) -> Job:
    """The job with its readings typed, those in `slips` (by their ids) otherwise."""
    job = first_questions.begin(
        hand="left",
        string_set="steel 12-54",
        measuring="bridge only",
        at_hand=ToolsAtHand(unit="in", rule="rule 1/64", caliper=""),
    )
    typed = {f"r{number}": text for number, text in enumerate((*BOARD, *LEFT, *RIGHT), 1)} | slips
    return reduce(lambda made, one: edits.set_value(made, *one), typed.items(), job)
