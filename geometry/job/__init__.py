"""The **job**: one instrument's readings and what is wanted of it, as an immutable record."""

from geometry.job.board import Board
from geometry.job.checks import NotAJob
from geometry.job.fretting import Frets
from geometry.job.job import Job
from geometry.job.placements import Kept, Places
from geometry.job.readings import Point, Reading, SideHint
from geometry.job.seating import Bridge, Old, OldMetal, OldPin, Pins, Saddle, SlotFront
from geometry.job.sheets import Sheets
from geometry.job.stringing import Action, Heard, Heights, Spread, String, Strings

__all__ = [
    "Action",
    "Board",
    "Bridge",
    "Frets",
    "Heard",
    "Heights",
    "Job",
    "Kept",
    "NotAJob",
    "Old",
    "OldMetal",
    "OldPin",
    "Pins",
    "Places",
    "Point",
    "Reading",
    "Saddle",
    "Sheets",
    "SideHint",
    "SlotFront",
    "Spread",
    "String",
    "Strings",
]
