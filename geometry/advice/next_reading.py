"""What to measure next: the reading that narrows the saddle's place most, or makes a point checked that is not."""

import msgspec

from geometry import units, words
from geometry.advice.candidates import numbered
from geometry.advice.weighing import FLOOR_CENTS, SADDLE, Weighing
from geometry.job import Job, Reading
from geometry.job.bridges.how_held import how_held
from geometry.job.sides import SIDES, Side
from geometry.layout import BOARD_CORNERS, TWO_SIDED_95, Layout
from geometry.placed.place_everything import place_everything
from geometry.survey.result import Surveyed
from geometry.survey.surveying import survey

MOST = 5
CHECK_WORTH = {SADDLE: 1.0} | dict.fromkeys(BOARD_CORNERS, 0.2)
"""What making a place checked is worth; any other point 0.05, a reading in which a slip would then show 0.01, narrowing
the saddle 1 and the part that goes, or the part alone where it would not show (common practice, no source)."""


class Advice(msgspec.Struct, frozen=True, kw_only=True):
    """One reading worth taking, its value null. `saddle_before`, `saddle_after`: the saddle's ± (mm, 95 %) on the
    `side` that it narrows most, None where it narrows neither; `checks`: the points that it makes checked, `shows`: the
    readings, by id, in which a slip would then show.
    """

    reading: Reading
    side: Side | None = None
    saddle_before: float | None = None
    saddle_after: float | None = None
    checks: tuple[str, ...] = ()
    shows: tuple[str, ...] = ()


class Advised(msgspec.Struct, frozen=True, kw_only=True):
    """The readings most worth taking, the best first; where there are none, `enough` says why."""

    advice: tuple[Advice, ...] = ()
    enough: str = ""


def advise(job: Job, layout: Layout, surveyed: Surveyed | None = None) -> Advised:
    """What is worth measuring next for a job and its layout. `surveyed` spares solving the job again."""
    surveyed = survey(job) if surveyed is None else surveyed
    if not surveyed.fits:
        return Advised(enough="Nothing has been measured yet. Begin with the list.")
    if layout.survey.verdict not in ("clean", "unchecked", "coarse"):
        return Advised(enough=f"First look at what the readings say. {layout.survey.why.whole}")
    seen = Weighing(job, layout, place_everything(job, surveyed))
    if not seen.readings:
        return Advised(enough="There are too few points yet to measure between. Go on with the list.")
    found = _ranked(seen)
    return Advised(advice=tuple(found)) if found else Advised(enough=_enough(seen))


def _ranked(seen: Weighing) -> list[Advice]:
    """The readings worth taking, the best first, each with those before it taken."""
    found: list[Advice] = []
    while len(found) < MOST:
        narrows, side = seen.narrows()
        checks, shown = seen.checks()
        before = TWO_SIDED_95 * seen.saddle_sd
        worth = [
            _of_narrowing(seen.job, float(narrows[i]), float(before[int(side[i])]))
            + sum(CHECK_WORTH.get(name, 0.05) for name in checks[i])
            + 0.01 * len(shown[i])
            for i in range(len(seen.readings))
        ]
        best = max(range(len(worth)), key=worth.__getitem__)
        if not worth[best]:
            break
        seen.take(best)
        advice = Advice(reading=numbered(seen.job, seen.readings[best]), checks=checks[best], shows=shown[best])
        if narrows[best]:
            where = int(side[best])
            after = TWO_SIDED_95 * float(seen.saddle_sd[where])
            advice = msgspec.structs.replace(
                advice, side=SIDES[where], saddle_before=float(before[where]), saddle_after=after
            )
        found.append(advice)
    return found


def _of_narrowing(job: Job, part: float, pm95: float) -> float:
    """What it is worth to narrow the saddle's ± (mm) by a part: little where the job's unit would not show it."""
    shows = units.show_pm(pm95, job.unit) != units.show_pm(pm95 * (1 - part), job.unit)
    return 1 + part if part and shows else part


def _enough(seen: Weighing) -> str:
    """Why nothing more is worth measuring."""
    saddle = seen.layout.saddle
    if saddle is None:
        return "Nothing more is worth measuring: every point is checked. Go on to the strings."
    cents, pm = max(zip(saddle.tune95, saddle.by_sheet.pm95, strict=True))
    said = f"The {how_held(seen.job).ridge} is known to ±{units.said_pm(pm, seen.job.unit)}, {cents:.1f} cents"
    if cents < FLOOR_CENTS:
        return f"Nothing more is worth measuring. {said}: players fretting the same note differ by more."
    hears = ""
    if seen.job.held != "screws" and any(one.compensation_from == "worked out" for one in seen.layout.strings):
        hears = f" {words.first_large(how_held(seen.job).trial)} does: By ear, on the Strings card."
    return f"Nothing more is worth measuring. {said}, and one reading more would hardly narrow it.{hears}"
