"""The **job**: one instrument's readings and what is wanted of it, as an immutable record."""

from geometry.job.board import Board
from geometry.job.checks import NotAJob
from geometry.job.fretting import Frets
from geometry.job.job import Job
from geometry.job.old_work import Area, Brace, Old, OldHole, OldMetal, OldPin, OldSlot
from geometry.job.proof import Proof
from geometry.job.readings import Point, Reading, SideHint
from geometry.job.seating import Bridge, Pins, Saddle, SlotFront
from geometry.job.sheets import Sheets
from geometry.job.stringing import Action, Heard, Heights, Spread, String, Strings

__all__ = [
    "Action",
    "Area",
    "Board",
    "Brace",
    "Bridge",
    "Frets",
    "Heard",
    "Heights",
    "Job",
    "NotAJob",
    "Old",
    "OldHole",
    "OldMetal",
    "OldPin",
    "OldSlot",
    "Pins",
    "Point",
    "Proof",
    "Reading",
    "Saddle",
    "Sheets",
    "SideHint",
    "SlotFront",
    "Spread",
    "String",
    "Strings",
]
