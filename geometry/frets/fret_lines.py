"""The frets: their lines, where each side's nominal place lies, and what is to be said of them."""

import msgspec
import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.frame import Points, crossing, unit
from geometry.frets.fret_fit import FittedSpacing, count_told, fitted, frets_read, is_a_scale, scale_alone
from geometry.job import Job, Reading
from geometry.job.sides import SIDES, Side
from geometry.layout import TWO_SIDED_95, Fit, FretLine, FretPlan, Nominal
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import OuterPaths
from geometry.perturbed_states import PerturbedStates
from geometry.pitch import cents
from geometry.spacing import one_fraction, saddle_fraction
from geometry.survey.rows.one_scale import NUT, SHOWN
from geometry.survey.rows.row import BELIEVABLE
from geometry.units import mm, said, said_pm

MOVED = 0.5
"""A shift of the nut beyond which it is said, mm (common practice, no source)."""
NO_NUT = 5.0
"""No nut is moved farther than this, mm: the frets were counted wrong (common practice, no source)."""
NUT_TOLD = 0.9
"""The frets tell of the nut where they put it more surely than this part of what is taken of it beforehand."""
SLANTED = 0.8
"""A difference of the nominal places from which on frets are called slanted, mm (common practice, no source)."""
DIFFERS = 2.0
"""A typed scale that differs from the frets by no more than this, mm, is not spoken of (common practice, no source)."""


class FretLines(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Frets 1 to the last in the first row: a point `on` each, at the right outer path, and its leftward direction
    `way`, (frets,); and where they cross the edge lines, `edge` (frets, 2).
    """

    on: Points
    way: Points
    edge: Points


def describe(states: PerturbedStates, job: Job, frame: NeckFrame, spaced: FittedSpacing, lines: FretLines) -> FretPlan:
    """The frets as the layout holds them, with each fret drawn from edge to edge."""
    mean = spaced.scale.sum(axis=1, keepdims=True) / 2
    nut, slant = spaced.shift.sum(axis=1, keepdims=True) / 2, spaced.nominal[:, :1] - spaced.nominal[:, 1:]
    left, right, scale_pm95, nut_pm95, slant_pm95 = states.pm95(
        np.concatenate((spaced.nominal, mean, nut, slant), axis=1)
    ).tolist()
    spacing, other_way = job.frets.spacing, "best" if job.frets.nominal == "octave" else "octave"
    other = saddle_fraction(spacing, other_way, job.frets.count) * spaced.scale[0] - spaced.shift[0]
    nominal, shift = spaced.nominal[0].tolist(), spaced.shift[0].tolist()
    open_left, open_right = (cents(n + s, n) for n, s in zip(nominal, shift, strict=True))
    return FretPlan(
        spacing=spacing,
        scale=float(mean[0, 0]),
        scale_pm95=scale_pm95,
        nut_shift=sum(shift) / 2,
        nut_shift_pm95=nut_pm95,
        slant=float(slant[0, 0]),
        slant_pm95=slant_pm95,
        nominal=Nominal(left=nominal[0], right=nominal[1], left_pm95=left, right_pm95=right),
        lines=_lines(frame, lines),
        open_cents=(open_left, open_right),
        other=Nominal(left=float(other[0]), right=float(other[1]), left_pm95=left, right_pm95=right)
        if spacing == "eighteen"
        else None,
    )


def fret_lines(job: Job, frame: NeckFrame, paths: OuterPaths, spaced: FittedSpacing) -> FretLines:
    """The lines of all frets, each through its places on the outer paths and carried on to the board's edges."""
    places = paths.start[0] + paths.along[0] * spaced.places(job.frets.spacing)
    on, way = places[:, 1], unit(places[:, 0] - places[:, 1])
    return FretLines(on=on, way=way, edge=crossing(on[:, None], way[:, None], frame.edge[0], frame.edge_way[0]))


def twelfth(job: Job, paths: OuterPaths, spaced: FittedSpacing) -> tuple[Points, Points]:
    """The line of fret 12 in all rows, as a point on it and a leftward direction, both (rows,)."""
    far = one_fraction(job.frets.spacing, 12) * spaced.scale - spaced.shift + (spaced.off[11:12].sum(axis=0))
    places = paths.start + paths.along * far
    return places[:, 1], places[:, 0] - places[:, 1]


def missing(states: PerturbedStates, job: Job) -> Finding:
    """What is still to be read before the frets are known; or what was read, where it makes no scale."""
    fits = {side: fitted(states, side) for side in (*SIDES, "centre")}
    if job.frets.slanted and (fits["left"] is None or fits["right"] is None):
        return _one_side_of_slanted(job, [side for side in SIDES if fits[side] is None])
    odd = [(side, float(fit[0][0])) for side, fit in fits.items() if fit is not None and not is_a_scale(fit[0][:1])]
    if odd or any(fit is not None for fit in fits.values()):
        told = [f"a scale of {said(scale, job.unit)} {_along(job, side)}" for side, scale in odd]
        return Finding(
            grade="stop",
            code="frets.no_scale",
            text=f"The frets as read make {' and '.join(told) or 'no place for a saddle'}, which no instrument has: "
            "look at each value’s unit and decimal point, and at which fret it says.",
            where="step:measure",
        )
    return Finding(
        grade="look",
        code="frets.missing",
        text="No fret is read yet: lay the rule from the nut’s front along an outer string and read fret 12, "
        "better also frets 1 and 7.",
        where="step:measure",
    )


def _one_side_of_slanted(job: Job, unread: list[Side]) -> Finding:
    strings = words.joined(
        [f"the {hand} string" for hand in ("bass", "treble") if hand in map(job.bass_or_treble, unread)]
    )
    return Finding(
        grade="stop",
        code="frets.slanted_one_side",
        text=f"The frets are said to be slanted, so each outer string has a scale of its own: read frets "
        f"along {strings} too, or declare the scale there.",
        where="step:measure",
    )


def findings(job: Job, states: PerturbedStates, plan: FretPlan, spaced: FittedSpacing) -> tuple[Finding, ...]:
    """A nut that was moved, frets slanted to it, a typed scale that is not the frets', one side not read."""
    return (
        *_moved(job, plan),
        *_slanted(job, plan),
        *_typed_otherwise(job, plan, spaced),
        *_one_side(job, states, spaced),
    )


def _moved(job: Job, plan: FretPlan) -> tuple[Finding, ...]:
    """A nut that stands elsewhere than the frets say, as far as they can tell."""
    if abs(plan.nut_shift) <= max(MOVED, plan.nut_shift_pm95 * BELIEVABLE / TWO_SIDED_95):
        return ()
    way = "near" if plan.nut_shift > 0 else "far"
    off = float(np.mean(plan.open_cents))
    heard = "sharp" if off > 0 else "flat"
    stands = f"By the frets the nut stands {said_pm(plan.nut_shift_pm95, job.unit, abs(plan.nut_shift))} too {way}"
    worn = " and" if way == "near" else ", that the rule’s end is not worn (all it reads is then too much), and"
    values = {"mm": plan.nut_shift, "pm95": plan.nut_shift_pm95, "cents": off}
    if abs(plan.nut_shift) > NO_NUT:
        return (
            Finding(
                grade="stop",
                code="nut.miscounted",
                text=f"{stands}, farther than any nut is moved: count the frets again, and look at the fret that each "
                "reading names.",
                values=values,
                where="nut",
            ),
        )
    return (
        Finding(
            grade="look",
            code="nut.moved",
            text=f"{stands}: the saddle follows the frets, and the open strings are {abs(off):.1f} cents {heard} of "
            f"their notes. Look that each fret was counted right{worn} that the rule began at the nut’s front.",
            values=values,
            where="nut",
        ),
    )


def _slanted(job: Job, plan: FretPlan) -> tuple[Finding, ...]:
    """Frets that are not square to the strings' middle: every string has a nominal place of its own."""
    if abs(plan.slant) <= max(SLANTED, plan.slant_pm95 * SHOWN / TWO_SIDED_95):
        return ()
    return (
        Finding(
            grade="good" if job.frets.slanted else "look",
            code="frets.slanted",
            text="The frets are slanted to the nut: the nominal place is "
            f"{said_pm(plan.slant_pm95, job.unit, abs(plan.slant))} farther at "
            f"{job.bass_or_treble('left' if plan.slant > 0 else 'right')}, and each string has its own.",
            values={"mm": plan.slant, "pm95": plan.slant_pm95},
            where="fret:12",
        ),
    )


def unchecked(job: Job, fits: tuple[Fit, ...]) -> tuple[Finding, ...]:
    """Frets of which one could be misread by millimetres, or all be counted wrong alike, without the others showing it,
    or a typed scale that stands in for all; and the reading that would make them show it.
    """
    readings = {reading.id: reading for reading in job.readings if reading.kind == "fret" and reading.taken}
    mine = [(readings[fit.id], fit) for fit in fits if fit.id in readings]
    hidden = [reading for reading, fit in mine if not fit.checked]
    told, alone = count_told(job), scale_alone(job)
    if told and not hidden and not alone:
        return ()
    counts = {hand: sum(_hand(job, reading) == hand for reading, _ in mine) for hand in ("bass", "treble")}
    hand = min(counts, key=lambda one: (counts[one], not hidden or one != _hand(job, hidden[0])))
    taken = frets_read(job) if not told else {reading.fret for reading, _ in mine if _hand(job, reading) == hand}
    fret = next((one for one in (12, 5, 9, 7, 3, 1) if one not in taken and one <= job.frets.count), None)
    if fret is None:
        return ()
    what = (
        "Nothing checks the scale as typed: one of another instrument, or with compensation in it, would not show."
        if alone
        else "Nothing checks the frets: a misread or miscounted one would not show."
        if mine and len(hidden) == len(mine)
        else "Too few frets are read to tell how they were counted: one too many on both sides would not show."
        if not told
        else f"Nothing checks {words.joined([f'fret {one.fret} ({_hand(job, one)})' for one in hidden])}: a slip there "
        "would not show."
    )
    return (
        Finding(
            grade="look",
            code="frets.unchecked",
            text=f"{what} Read fret {fret} along the {hand} string as well.",
            values={"fret": float(fret)},
            where="step:measure",
        ),
    )


def _hand(job: Job, reading: Reading) -> str:
    return "centre line" if reading.on == "centre" else job.bass_or_treble(reading.on or "")


def _typed_otherwise(job: Job, plan: FretPlan, spaced: FittedSpacing) -> tuple[Finding, ...]:
    """A typed scale that the frets as read do not make."""
    typed = job.frets.scale
    if typed is None or spaced.given or abs(mm(typed) - plan.scale) <= max(DIFFERS, plan.scale_pm95):
        return ()
    return (
        Finding(
            grade="look",
            code="scale.differs",
            text=f"The frets as read make a scale of {said(plan.scale, job.unit)}, and "
            f"{said(mm(typed), job.unit)} is typed; the readings are used. "
            "Check whether the right fret was counted.",
            values={"read": plan.scale, "typed": mm(typed)},
            where="field:frets.scale",
        ),
    )


def _one_side(job: Job, states: PerturbedStates, spaced: FittedSpacing) -> tuple[Finding, ...]:
    """What is not known where frets were read on one path, or on none."""
    if not spaced.given and len(spaced.read) != 1:
        return ()
    if job.frets.slanted:
        return (_as_declared(job, spaced),)
    what = "The scale is taken as typed" if spaced.given else f"Frets were read {_along(job, spaced.read[0])} only"
    told = not spaced.given and float(states.sd(spaced.shift).min()) < NUT_TOLD * NUT
    unknown = "whether the frets are slanted" if told else "whether the frets are slanted, or the nut was moved,"
    return (
        Finding(grade="look", code="frets.one_side", text=f"{what}: {unknown} is not known.", where="step:measure"),
    )


def _as_declared(job: Job, spaced: FittedSpacing) -> Finding:
    """Which scale of slanted frets stands on what was declared alone."""
    unread = [job.bass_or_treble(side) for side in SIDES if side not in spaced.read]
    which = f"The {unread[0]} string’s scale is taken as declared: whether it is so"
    if spaced.given:
        which = "The scales are taken as declared: whether they are so"
    if spaced.read == ("centre",):
        which = "Frets were read along the centre line only, and how the scales differ is taken as declared: whether so"
    text = f"{which}, or the nut was moved, is not known. Read frets along each outer string."
    return Finding(grade="look", code="frets.one_side", text=text, where="step:measure")


def _along(job: Job, side: str) -> str:
    """The path that frets were read on, in words."""
    return "along the centre line" if side == "centre" else f"along the {job.bass_or_treble(side)} string"


def _lines(frame: NeckFrame, lines: FretLines) -> tuple[FretLine, ...]:
    """All frets from edge to edge, the nut first."""
    edges = [frame.nut[0].tolist(), *lines.edge.tolist()]
    return tuple(
        FretLine(fret=fret, left=(left.real, left.imag), right=(right.real, right.imag))
        for fret, (left, right) in enumerate(edges)
    )
