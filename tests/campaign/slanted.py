"""How true the ± of slanted frets is: invented instruments of a geometry of its own (`tests.geometry.slanted_made`),
read as a hand reads them to half a mm, on both sides, on one, or on none with the scales declared.

    python -m tests.campaign.slanted --count 1000 --seed 11
"""

import argparse
import math
from collections.abc import Iterator

import msgspec
import numpy as np

from geometry.job import Scales
from geometry.job.sides import SIDES
from geometry.work_out import work_out
from tests.campaign.counting import Share, share
from tests.geometry.slanted_made import made, place

READ: dict[str, tuple[str, ...]] = {"both sides": SIDES, "bass alone": ("right",), "declared alone": ()}
NUT, TYPED = 0.5, 0.5
"""How far nuts stand out, and scales from what was declared of them, one standard deviation (mm): what the program says
it takes of both (docs/numbers.md)."""


class Tried(msgspec.Struct, frozen=True):
    """One figure of one instrument: by how much it was out, its ±, and whether what was declared was called wrong."""

    case: str
    figure: str
    off: float
    pm95: float

    @property
    def held(self) -> bool:
        return abs(self.off) <= self.pm95


class Tally(msgspec.Struct, frozen=True):
    """All that was tried: its figures, and how many instruments of how many were called other than declared."""

    tried: tuple[Tried, ...]
    called: dict[str, Share]


def try_one(case: str, random: np.random.Generator) -> tuple[list[Tried], bool]:
    """One instrument that was made to what is declared, but for what a saw leaves: its figures against the truth, and
    whether a declared scale or the square fret was doubted all the same.
    """
    treble, apart = float(random.uniform(630, 660)), float(random.uniform(5, 28))
    square, shift = int(random.integers(0, 13)), float(random.normal(0, NUT))
    true = {"left": treble + float(random.normal(0, TYPED)), "right": treble + apart + float(random.normal(0, TYPED))}
    job = made(true["left"], true["right"], square, read=READ[case], random=random, shift=shift)
    declared = msgspec.structs.replace(job.frets, scales=Scales(left=treble, right=treble + apart))
    job = msgspec.structs.replace(job, frets=declared)
    layout = work_out(job)
    if layout.frets is None or layout.frets.slants is None:
        return [], False
    frets, slants = layout.frets, layout.frets.slants
    nut, end = ([place(true, square, side, fret).real for side in SIDES] for fret in (0.0, math.inf))
    # the nut stands nearer to the frets by the shift, both ends alike
    figures = {
        "slant of the nut": (slants.nut - (nut[0] - nut[1]), slants.nut_pm95),
        "slant of the nominal places": (slants.nominal - (end[0] - end[1]), slants.nominal_pm95),
        "nominal place, left": (frets.nominal.left - (true["left"] - shift), frets.nominal.left_pm95),
        "nominal place, right": (frets.nominal.right - (true["right"] - shift), frets.nominal.right_pm95),
        "square fret": (slants.off_square or 0.0, slants.off_square_pm95),
    }
    doubted = {finding.code for finding in layout.findings} & {"frets.not_square", "scales.differ"}
    return [Tried(case, name, off, pm95) for name, (off, pm95) in figures.items()], bool(doubted)


def try_all(count: int, seed: int) -> Tally:
    """So many instruments of each case."""
    tried: list[Tried] = []
    called: dict[str, Share] = {}
    for case in READ:
        random, doubts = np.random.default_rng([seed, len(called)]), []
        for _ in range(count):
            figures, doubted = try_one(case, random)
            tried += figures
            doubts.append(doubted)
        called[case] = share(doubts)
    return Tally(tuple(tried), called)


def lines(tally: Tally) -> Iterator[str]:
    """One line for each figure: how often its ± held the truth (Clopper-Pearson, 95 %), and how wide it was."""
    for case in READ:
        for name in dict.fromkeys(one.figure for one in tally.tried):
            mine = [one for one in tally.tried if (one.case, one.figure) == (case, name)]
            held = share(one.held for one in mine)
            low, high = (100 * bound for bound in held.interval)
            wide = float(np.median([one.pm95 for one in mine]))
            of = f"{held.count:5} of {held.of:5}  {100 * held.value:5.1f} % ({low:.1f} to {high:.1f})"
            yield f"{case:15} {name:28} {of}  ± {wide:.2f} mm"
        doubted = tally.called[case]
        yield f"{case:15} called other than declared   {doubted.count} of {doubted.of}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=11)
    asked = parser.parse_args()
    print("\n".join(lines(try_all(asked.count, asked.seed))))  # noqa: T201  # what it is run for


if __name__ == "__main__":
    main()
