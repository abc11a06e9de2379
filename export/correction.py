"""A printer's own error, as a rule shows it on the check sheet, and the **correction** that takes it away.

A printer stretches every page alike: by one factor along the paper's short side, by another along its long side, and it
may skew it a little. The **check sheet** is read across (along the short side), up (along the long side), and along
both diagonals: the rising one from the lower left corner, the falling one from the upper left. How a sheet lies on the
paper makes no difference to the printer, so the correction belongs to the paper's sides and turns with the sheet.
"""

import math

import msgspec

from export.errors import ExportError

OUTER, INNER = 180.0, 152.4
"""mm: the sides of the check sheet's two squares, the second 6 in. They are so far from alike that what was read says
which of them it was.
"""
LEAST, MOST = 0.98, 1.02
"""A printer out by more was not printing at 100 % (common practice, no source)."""
TOGETHER = 0.6
"""mm: how far the diagonals may lie from what the sides make of them. Derived: a parallelogram's diagonals squared are
together twice its sides squared; four readings of 0.15 mm standard deviation each leave 0.18 mm between the two, and
3.3 times that passes by chance once in a thousand.
"""
SIDES_LONG = {"across": 1.0, "up": 1.0, "rising": math.sqrt(2), "falling": math.sqrt(2)}
"""How many of a square's sides each line that is read is long."""
FIT = "was the check sheet printed at 100 %, with no fit to page, and was that line read?"

Matrix = tuple[tuple[float, float], tuple[float, float]]


class Correction(msgspec.Struct, frozen=True):
    """By how much pages are stretched along the paper's `short` and `long` side before they are printed, and by how
    many mm along the short side a place is moved back for each mm that it lies up the long side (`skew`).
    """

    short: float = 1.0
    long: float = 1.0
    skew: float = 0.0

    def matrix(self, wide: bool) -> Matrix:
        """What takes a place on the page, from its middle, to where it must be printed; `wide`: the page's x runs along
        the paper's long side. Derived: turned by a quarter, either way, [[s, −k], [0, l]] is [[l, 0], [k, s]].
        """
        if wide:
            return (self.long, 0.0), (self.skew, self.short)
        return (self.short, -self.skew), (0.0, self.long)

    def says(self) -> str:
        """The factors in words; empty where there is nothing to correct."""
        if self == NONE:
            return ""
        from geometry.units import in_decimals  # settings are read before the window's first picture, which needs none

        skew = f", skew × {in_decimals(self.skew, 4, sign=True)}" if abs(self.skew) >= SEEN else ""
        return f"short side × {self.short:.4f}, long side × {self.long:.4f}{skew}"


NONE = Correction()
SEEN = 0.00005
"""A skew that is smaller shows as nothing with four decimals."""


class CheckSheet(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """What a rule read on a printer's check sheet, mm, on either of its squares; None: not read."""

    across: float | None = None
    up: float | None = None
    rising: float | None = None
    falling: float | None = None

    def correction(self) -> Correction:
        """What takes the printer's error away. Raises `ExportError` where a reading or all together cannot be.

        Derived: the printer takes (x, y) to (s x + k y, l y), so that of a square of side 1 it reads s across,
        √(k² + l²) up, and of the diagonals rising² − falling² = 4 s k. What was not read is taken to be right.
        """
        across, up = of_side(self.across, "across"), of_side(self.up, "up")
        skewed = self._skewed(across, up)
        along = math.sqrt(up * up - skewed * skewed)
        return Correction(short=1 / across, long=1 / along, skew=skewed / (across * along))

    def _skewed(self, across: float, up: float) -> float:
        """The mm along the short side for each mm up the long one. Raises `ExportError` for four that cannot be."""
        both = 2 * (across * across + up * up)
        long = SIDES_LONG["rising"]
        rising = of_side(self.rising, "along the rising diagonal", long) * long
        falling = of_side(self.falling, "along the falling diagonal", long) * long
        if self.rising is None and self.falling is None:
            return 0.0
        if self.rising is None:
            rising = math.sqrt(both - falling * falling)
        if self.falling is None:
            falling = math.sqrt(both - rising * rising)
        apart = OUTER * (math.sqrt((rising * rising + falling * falling) / 2) - math.sqrt(both / 2))
        if abs(apart) > TOGETHER:
            raise ExportError(
                f"The diagonals are {abs(apart):.1f} mm too {'long' if apart > 0 else 'short'} for a square with these "
                "sides: one of the four is misread. Read all four again, each from line to line"
            )
        return (rising * rising - falling * falling) / (4 * across)


def of_side(read: float | None, where: str, long: float = 1.0) -> float:
    """What was read as a share of what was meant, by the square it can have been read on; 1 where nothing was read.

    `long`: how many sides long the line is. Raises `ExportError` where it fits neither square.
    """
    if read is None:
        return 1.0
    share = share_of_side(read, long)
    if share is not None:
        return share
    raise ExportError(
        f"{_both(read)} {where} is neither near {_both(OUTER * long)} (the outer square) nor near "
        f"{_both(INNER * long)} (the inner one): {FIT}"
    )


def share_of_side(read: float, long: float) -> float | None:
    """The same, where it may fit neither: None then."""
    shares = (read / (side * long) for side in (OUTER, INNER))
    return next((share for share in shares if LEAST <= share <= MOST), None)


def _both(read: float) -> str:
    """A length in both units that a rule may have."""
    return f"{read:.1f} mm ({read / INNER * 6:.2f} in)"
