"""The **job**: one instrument's readings and what is wanted of it, as an immutable record."""

from geometry.job.bridges import Held
from geometry.job.bridges.floating import Floating
from geometry.job.bridges.separate import Separate, Through
from geometry.job.bridges.tail import Tail
from geometry.job.bridges.tie_block import TieBlock
from geometry.job.checks import NotAJob
from geometry.job.job import Job
from geometry.job.measured.proof import Proof
from geometry.job.measured.readings import Point, Reading, SideHint
from geometry.job.neck.board import Arch, Board
from geometry.job.neck.fretting import Frets, Scales
from geometry.job.neck.hardware import FaceMarkers, Hardware, Markers, OtherHole, SideMarkers
from geometry.job.neck.headstock import Headstock, TunerPlate, Tuners
from geometry.job.neck.nut import Nut
from geometry.job.old_work import Area, Brace, Old, OldHole, OldMetal, OldPin, OldPost, OldSlot
from geometry.job.place_choice import Choosing, Weights
from geometry.job.placements import Kept, Places
from geometry.job.seating import Bridge, Moved, Pins, Saddle, SlotFront
from geometry.job.sheets import Sheets
from geometry.job.stringing import Action, Heard, Heights, Spread, String, Strings

__all__ = [
    "Action",
    "Arch",
    "Area",
    "Board",
    "Brace",
    "Bridge",
    "Choosing",
    "FaceMarkers",
    "Floating",
    "Frets",
    "Hardware",
    "Headstock",
    "Heard",
    "Heights",
    "Held",
    "Job",
    "Kept",
    "Markers",
    "Moved",
    "NotAJob",
    "Nut",
    "Old",
    "OldHole",
    "OldMetal",
    "OldPin",
    "OldPost",
    "OldSlot",
    "OtherHole",
    "Pins",
    "Places",
    "Point",
    "Proof",
    "Reading",
    "Saddle",
    "Scales",
    "Separate",
    "Sheets",
    "SideHint",
    "SideMarkers",
    "SlotFront",
    "Spread",
    "String",
    "Strings",
    "Tail",
    "Through",
    "TieBlock",
    "TunerPlate",
    "Tuners",
    "Weights",
]
