"""How true the ± of slanted frets is: invented instruments of a geometry of its own (`tests.geometry.slanted_made`),
read as a hand reads them to half a mm, on both sides, on one, or on none with the scales declared.
"""

import math

import msgspec
import numpy as np

from geometry.job import Scales
from geometry.job.sides import SIDES
from geometry.work_out import work_out
from tests.campaign.counting import Found, Share, by_name, share
from tests.campaign.judging import Figure
from tests.geometry.slanted_made import LEAN, made, place

READ: dict[str, tuple[str, ...]] = {"read on both sides": SIDES, "read at the bass": ("right",), "declared": ()}
NUT, TYPED = 0.5, 0.5
"""How far nuts stand out, as a whole and one end against the other, and scales from what was declared of them, one
standard deviation (mm): what the program says it takes of both (docs/numbers.md)."""


def try_one(case: str, random: np.random.Generator) -> tuple[dict[str, Figure], bool]:
    """One instrument that was made to what is declared, but for what a saw leaves: its figures against the truth, and
    whether a declared scale or the square fret was doubted all the same.
    """
    treble, apart = float(random.uniform(630, 660)), float(random.uniform(5, 28))
    square = int(random.integers(0, 13))
    whole, askew = random.normal(0, NUT, 2).tolist()
    shift = whole + askew / 2, whole - askew / 2
    true = {"left": treble + float(random.normal(0, TYPED)), "right": treble + apart + float(random.normal(0, TYPED))}
    job = made(true["left"], true["right"], square, read=READ[case], random=random, shift=shift)
    declared = msgspec.structs.replace(job.frets, scales=Scales(left=treble, right=treble + apart))
    job = msgspec.structs.replace(job, frets=declared)
    layout = work_out(job)
    if layout.frets is None or layout.frets.slants is None:
        return {}, False
    frets, slants = layout.frets, layout.frets.slants
    start, end = ([place(true, square, side, fret).real for side in SIDES] for fret in (0.0, math.inf))
    nut = [at + math.cos(LEAN) * nearer for at, nearer in zip(start, shift, strict=True)]
    off_square = 0.0 if square else nut[0] - nut[1]
    figures = {
        "the nut’s slant": Figure(slants.nut - (nut[0] - nut[1]), slants.nut_pm95),
        "the nominal places’ slant": Figure(slants.nominal - (end[0] - end[1]), slants.nominal_pm95),
        "the left nominal place": Figure(frets.nominal.left - (true["left"] - shift[0]), frets.nominal.left_pm95),
        "the right nominal place": Figure(frets.nominal.right - (true["right"] - shift[1]), frets.nominal.right_pm95),
        "the square fret’s slant": Figure((slants.off_square or 0.0) - off_square, slants.off_square_pm95),
    }
    doubted = {finding.code for finding in layout.findings} & {"frets.not_square", "scales.differ"}
    return {f"{name}, {case}": figure for name, figure in figures.items()}, bool(doubted)


def found(count: int, seed: int) -> Found:
    """So many instruments of each case."""
    records: list[dict[str, Figure]] = []
    said: dict[str, Share] = {}
    for at, case in enumerate(READ):
        random = np.random.default_rng([seed, at])
        tried = [try_one(case, random) for _ in range(count)]
        records += [figures for figures, _ in tried]
        said[f"made as declared, and not doubted, {case}"] = share(not doubted for _, doubted in tried)
    return Found(figures=by_name(records), said=said)
