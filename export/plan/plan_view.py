"""How the plan is looked at: its scale on the screen's paper, its turn, and what is laid over it."""

import math
from functools import cached_property
from typing import TYPE_CHECKING, Literal

import msgspec

from export.drawing.flatten import Box, around
from export.drawing.marks import XY
from export.drawing.transform import Transform
from export.records import Sheet
from geometry.job import Reading

if TYPE_CHECKING:
    from geometry.choice.choose import ChosenPlace

Overlay = Literal["seam", "opposite slant", "old bridge", "ellipses", "points", "labels", "sheets", "placements"]
USUAL_OVERLAYS: frozenset[Overlay] = frozenset(("seam", "old bridge", "points", "labels", "placements"))


class PlanView(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """`scale`: paper mm per instrument mm. `turn`: quarters clockwise. `inside`: mirrored, seen from inside.

    `window`: what of the instrument is seen (mm), so that words stay within it; None: all of it. `reading`: the id of
    the reading in hand. `advice`: a reading that might be taken next, drawn as it would be. `sheets`: pages to lay
    over. `choices`: places the bridge may be moved to, and the one that is looked at, by what it is best at (`chosen`).
    `close_up`: whether what is small and matters is drawn with its size. `on_paper`: whether it is a small picture on a
    page, whose words may stand far off. `clear`: the room round words, paper mm.
    """

    scale: float = 1 / 3
    turn: int = 0
    inside: bool = False
    window: Box | None = None
    overlays: frozenset[Overlay] = USUAL_OVERLAYS
    reading: str = ""
    advice: Reading | None = None
    close_up: bool = False
    on_paper: bool = False
    clear: float = 0.0
    sheets: tuple[Sheet, ...] = ()
    choices: "tuple[ChosenPlace, ...]" = ()
    chosen: str = ""

    @cached_property
    def to_screen(self) -> Transform:
        """Instrument directions to the screen's, y up."""
        return Transform(turn=-math.pi / 2 * (self.turn % 4), mirror=self.inside)

    @cached_property
    def from_screen(self) -> Transform:
        """The screen's directions to the instrument's."""
        return self.to_screen if self.inside else Transform(turn=math.pi / 2 * (self.turn % 4))

    @property
    def near(self) -> bool:
        """Whether one looks closely enough to tell single holes and points apart."""
        return self.scale > 0.36

    def seen(self, at: XY) -> XY:
        """A place of the instrument in the screen's paper mm."""
        x, y = self.to_screen.xy(at)
        return x * self.scale, y * self.scale

    def seen_box(self, box: Box) -> Box:
        """A box of the instrument in the screen's paper mm."""
        return around((self.seen(box[:2]), self.seen(box[2:])))

    @cached_property
    def seen_window(self) -> Box | None:
        """The window in the screen's paper mm."""
        return self.seen_box(self.window) if self.window else None

    def unseen(self, at: XY) -> XY:
        """A place in the screen's paper mm on the instrument."""
        return self.from_screen.xy((at[0] / self.scale, at[1] / self.scale))

    def size(self, paper: float) -> float:
        """So many paper mm, in instrument mm."""
        return paper / self.scale
