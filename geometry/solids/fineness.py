"""How finely the lengths of a saddle, a crown or a nut are told."""

from typing import NamedTuple

from geometry.job import Job
from geometry.job.told_by_rule import in_64ths
from geometry.layout import XY, NutBlank, NutSlot, SaddleBlank
from geometry.units import Unit, show, show_fine_pm, show_pm


class Told(NamedTuple):
    """How the lengths of one part are told, on its sheet and on the job sheet alike: hundredths of a mm, thousandths
    of an inch as it is filed to, or `ruled` 64ths.
    """

    unit: Unit
    ruled: bool

    def fine(self, value: float) -> str:
        """A length as it is filed or laid off to."""
        return show(value, self.unit, 1 if self.ruled else 2)

    def pm(self, pm95: float) -> str:
        """A ± as it stands beside such a length, rounded up."""
        return show_pm(pm95, self.unit) if self.ruled else show_fine_pm(pm95, self.unit)

    def with_pm(self, value: XY | None) -> str:
        """A value and its ± in a table; empty where it is not known."""
        return "" if value is None else f"{self.fine(value[0])} ±{self.pm(value[1])}"


def told_saddle(job: Job, blank: SaddleBlank) -> Told:
    """How a saddle's or a crown's lengths are told."""
    highs = [high for one in blank.strings for high in (one.over_top, one.over_bridge, one.whole) if high is not None]
    return Told(job.unit, in_64ths(job, (pm95 for _, pm95 in highs)))


def told_nut(job: Job, blank: NutBlank) -> Told:
    """How a nut's lengths are told, but for its slots' widths, which are those of strings and of files."""
    known = [one for slot in blank.slots for one in (slot.along, slot.over_board, slot.over_bed, slot.deep)]
    return Told(job.unit, in_64ths(job, (one[1] for one in known if one is not None)))


def slot_wide(slot: NutSlot, unit: Unit) -> str:
    """A nut slot's width, as the strings and the files that cut it are told; empty where it is not known."""
    return "" if slot.width is None else show(slot.width, unit, 2)
