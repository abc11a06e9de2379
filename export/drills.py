"""Drill sizes: the nearest inch drill and the nearest metric one for a hole; for a pin hole the next one below.

Number and letter sizes after ASME B94.11M-1993, from memory; fractions in 64ths of an inch; metric drills in tenths of
a mm (common practice, no source).
"""

import math
from functools import lru_cache
from typing import NamedTuple

from geometry.old_work.holes.plugs import plug_for
from geometry.units import INCH, Unit

_NUMBERS = (
    "2280 2210 2130 2090 2055 2040 2010 1990 1960 1935 1910 1890 1850 1820 1800 1770 1730 1695 1660 1610 "
    "1590 1570 1540 1520 1495 1470 1440 1405 1360 1285 1200 1160 1130 1110 1100 1065 1040 1015 0995 0980 "
    "0960 0935 0890 0860 0820 0810 0785 0760 0730 0700 0670 0635 0595 0550 0520 0465 0430 0420 0410 0400"
)
_LETTERS = (
    "2340 2380 2420 2460 2500 2570 2610 2660 2720 2770 2810 2900 2950 3020 3160 3230 3320 3390 3480 3580 "
    "3680 3770 3860 3970 4040 4130"
)


class Drill(NamedTuple):
    """A drill's name and its diameter in mm."""

    name: str
    diameter: float


@lru_cache
def inch_drills() -> tuple[Drill, ...]:
    """Number, letter and fractional drills up to half an inch, smallest first; of two alike the fraction."""
    found = [Drill(f"#{i}", int(size) / 10000 * INCH) for i, size in enumerate(_NUMBERS.split(), 1)]
    found += [Drill(chr(ord("A") + i), int(size) / 10000 * INCH) for i, size in enumerate(_LETTERS.split())]
    for count in range(1, 33):
        above, below = count, 64
        while above % 2 == 0:
            above, below = above // 2, below // 2
        found.append(Drill(f"{above}/{below} in", count / 64 * INCH))
    return tuple(sorted(found, key=lambda drill: (round(drill.diameter, 4), not drill.name.endswith("in"))))


def nearest_inch(diameter: float) -> Drill:
    """The inch drill nearest to a diameter in mm."""
    return min(inch_drills(), key=lambda drill: abs(drill.diameter - diameter))


def nearest_metric(diameter: float) -> Drill:
    """The metric drill nearest to a diameter in mm."""
    size = max(0.5, round(diameter * 10) / 10)
    return Drill(f"{size:.1f} mm", size)


def plug(diameter: float) -> tuple[Drill, Drill]:
    """What an old hole is drilled out to for a plug of a usual size, metric and inch. A hole that is too wide for one:
    the next half mm, and the next 32nd of an inch.
    """
    half = plug_for(diameter, "mm") or (int(diameter * 2 + 1e-6) + 1) / 2
    inch = plug_for(diameter, "in")
    count = round(inch / INCH * 32) if inch is not None else int(diameter / INCH * 32 + 1e-6) + 1
    below = 32
    while count % 2 == 0:
        count, below = count // 2, below // 2
    return Drill(f"{half:.1f} mm", half), Drill(
        f"{count}/{below} in" if below > 1 else f"{count} in", count / below * INCH
    )


TAPER, THROUGH = 1 / 20, 15.0
"""A pin's taper, and the wood its hole passes (bridge, top and plate, mm), where its small end is not known (common
practice, no source)."""


def under(diameter: float) -> tuple[Drill, Drill]:
    """The largest metric and the largest inch drill below a diameter in mm, or the smallest there is."""
    size = max(0.5, (math.ceil(diameter * 10 - 1e-6) - 1) / 10)
    below = [drill for drill in inch_drills() if drill.diameter < diameter - 1e-6]
    return Drill(f"{size:.1f} mm", size), below[-1] if below else inch_drills()[0]


def for_pin(diameter: float, small_end: float | None) -> tuple[Drill, Drill]:
    """What a pin hole is drilled with before it is reamed to the pin's taper: below the pin's small end (all mm)."""
    return under(small_end if small_end is not None else diameter - TAPER * THROUGH)


def nearest_names(diameter: float) -> tuple[str, str]:
    """The names of the drills nearest to a hole of `diameter` mm, metric and inch."""
    return nearest_metric(diameter).name, nearest_inch(diameter).name


def either(names: tuple[str, str], unit: Unit) -> str:
    """Two drills that will do alike, metric and inch, as a sentence has them: the job’s own first."""
    return " or ".join(names[::-1] if unit == "in" else names)
