"""What a layout says, held against the truth: one **record** a trial.

A figure is **held** where the truth lies within its stated ±. A reading is **accused** where the survey names it or
counts it in a group; it is innocent where it was not truly wrong.
"""

import math

import msgspec

from geometry.findings import is_unsure
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, Layout
from geometry.work_out import work_out
from tests.campaign.invented.instruments import neck_of, outer_paths
from tests.campaign.invented.laying import lies
from tests.campaign.invented.mirroring import mirrored
from tests.campaign.invented.trials import Trial, exact_job

FAR, TIMES = 5.0, 3.0
"""A figure is wrong where it is off by more than so many mm and more than so many times its ±."""
SAME = 1e-6
"""mm. The mirrored instrument's answer may differ from the mirrored answer by rounding alone."""
ROUNDING = 1e-9


class Figure(msgspec.Struct, frozen=True):
    """How far a figure lies from the truth, and the ± it states, mm."""

    off: float
    pm: float

    @property
    def held(self) -> bool:
        """Whether the ± holds the truth."""
        return abs(self.off) <= self.pm + ROUNDING

    @property
    def wrong(self) -> bool:
        """Whether the figure is far off, and far beyond what it states."""
        return abs(self.off) > FAR and abs(self.off) > TIMES * self.pm


class Record(msgspec.Struct, frozen=True, kw_only=True):
    """One trial judged. `figures` by name, `points` by name and axis. `named` and `grouped` say whether a truly wrong
    reading was accused, `innocent` whether any other was. `silent`: the saddle lies beyond its ±, and the screen warns
    of nothing that it would not warn of if all readings were right. `wider`: how many times as wide every ± is said to
    be for how the readings agree. `apart`: by how much the true scales differ.
    """

    case: str
    index: int
    list: str
    verdict: str
    figures: dict[str, Figure]
    points: dict[str, Figure]
    wrong: tuple[str, ...]
    accused: tuple[str, ...]
    named: bool
    grouped: bool
    innocent: bool
    swapped: bool
    silent: bool
    wider: float
    slanted: bool
    apart: float
    difference: float | None
    checked: bool | None
    mirror: float | None = None

    @property
    def wrong_figures(self) -> tuple[str, ...]:
        """The figures that are wrong though no reading is accused that is."""
        if not set(self.wrong).isdisjoint(self.accused):
            return ()
        saddle = {name: figure for name, figure in self.figures.items() if name.startswith("saddle.")}
        return tuple(name for name, figure in (saddle | self.points).items() if figure.wrong)


def judge(trial: Trial, *, mirror: bool = False) -> Record:
    """Work out a trial's job and hold it against its truth."""
    layout = work_out(trial.job)
    survey = layout.survey
    accused = tuple(dict.fromkeys((*survey.suspects, *(name for group in survey.groups for name in group))))
    wrong = set(trial.wrong)
    named = bool(wrong) and (wrong <= set(survey.suspects) if len(wrong) > 1 else not wrong.isdisjoint(survey.suspects))
    stray = set(survey.suspects) - wrong
    figures = figures_of(layout, trial)
    beyond = any(not figure.held for name, figure in figures.items() if name.startswith("saddle."))
    return Record(
        case=trial.case,
        index=trial.index,
        list=trial.list,
        verdict=survey.verdict,
        figures=figures,
        points=points_of(layout, trial),
        wrong=trial.wrong,
        accused=accused,
        named=named,
        grouped=any(not wrong.isdisjoint(group) for group in survey.groups),
        innocent=bool(stray) or any(wrong.isdisjoint(group) for group in survey.groups),
        swapped=survey.verdict == "swapped",
        silent=beyond and warnings(layout) <= warnings(work_out(exact_job(trial))),
        wider=survey.wider,
        slanted=any(found.code == "frets.slanted" for found in layout.findings),
        apart=trial.instrument.scale[0] - trial.instrument.scale[1],
        difference=None if layout.frets is None else layout.frets.nominal.left - layout.frets.nominal.right,
        checked=None if layout.saddle is None else layout.saddle.checked,
        mirror=mirror_gap(layout, work_out(mirrored(trial.job))) if mirror else None,
    )


def warnings(layout: Layout) -> set[str]:
    """The codes of what the screen calls wrong, or stops: not what it says is estimated or unchecked."""
    return {found.code for found in layout.findings if found.grade != "good" and not is_unsure(found)}


def figures_of(layout: Layout, trial: Trial) -> dict[str, Figure]:
    """The saddle at bass and treble, its slant, the bridge's front at both wings and the nominal places."""
    saddle, frets, truth = layout.saddle, layout.frets, trial.truth
    if saddle is None or frets is None:
        return {}
    found = {}
    places, (bass, treble) = from_nut(layout), (1, 0) if trial.job.hand == "right" else (0, 1)
    for name, side in (("saddle.bass", bass), ("saddle.treble", treble)):
        found[name] = Figure(places[side] - truth.saddle[side], saddle.pm95[side])
    found["slant"] = Figure(slant_of(layout, trial.job.hand) - truth.slant, saddle.slant_pm95)
    nominal = frets.nominal
    found["nominal.left"] = Figure(nominal.left - truth.nominal[0], nominal.left_pm95)
    found["nominal.right"] = Figure(nominal.right - truth.nominal[1], nominal.right_pm95)
    return found | _by_sheet(layout, trial)


def _by_sheet(layout: Layout, trial: Trial) -> dict[str, Figure]:
    """Where a sheet that is laid to the true board puts the saddle at the outer strings, and the bridge's front."""
    saddle, bridge, instrument, truth = layout.saddle, layout.bridge, trial.instrument, trial.truth
    assert saddle is not None
    corners = () if bridge is None else bridge.corners[:2]
    neck = neck_of(instrument.points, trial.stations)
    along = [at.real for at in lies(layout, instrument, trial.stations, *saddle.at_strings, *corners)]
    begins = [path.real for path, _ in outer_paths(instrument, neck)]
    found = {
        f"sheet.{side}": Figure(along[at] - begins[at] - truth.saddle[at], saddle.by_sheet.pm95[at])
        for at, side in enumerate(SIDES)
    }
    for at, side in enumerate(SIDES[: len(corners)]):
        assert bridge is not None
        found[f"front.{side}"] = Figure(along[2 + at] - truth.front[at], bridge.front_pm95[at])
    return found


def from_nut(layout: Layout) -> tuple[float, float]:
    """From the nut's front to the saddle line along the centre line at the outer strings [left, right], mm."""
    if layout.saddle is None:
        raise AssertionError("no saddle")
    right, left = sorted((layout.strings[0].nut_xy, layout.strings[-1].nut_xy), key=lambda at: at[1])
    at = layout.saddle.at_strings
    return at[0][0] - left[0], at[1][0] - right[0]


def slant_of(layout: Layout, hand: str) -> float:
    """How much farther the saddle stands at the bass, mm; a right hand's bass is on the right."""
    if layout.saddle is None:
        raise AssertionError("no saddle")
    (left, _), (right, _) = layout.saddle.at_strings
    return right - left if hand == "right" else left - right


def points_of(layout: Layout, trial: Trial) -> dict[str, Figure]:
    """Every point that is solved and held, in x and in y; none while no neck is found."""
    if layout.frame != "neck":
        return {}
    loose = {point.point for point in layout.survey.loose}
    found = {}
    for name, point in layout.points.items():
        if name not in loose:
            true = trial.truth.points[name]
            found[f"{name} x"] = Figure(point.x - true.real, TWO_SIDED_95 * point.sx)
            found[f"{name} y"] = Figure(point.y - true.imag, TWO_SIDED_95 * point.sy)
    return found


def mirror_gap(one: Layout, other: Layout) -> float:
    """How far two layouts are from mirroring each other: in mm, or infinite where they say different things."""
    said = [(layout.survey.verdict, layout.survey.suspects, layout.survey.groups) for layout in (one, other)]
    codes = [[found.code for found in layout.findings] for layout in (one, other)]
    if said[0] != said[1] or sorted(codes[0]) != sorted(codes[1]) or (one.saddle is None) != (other.saddle is None):
        return math.inf
    gaps = [0.0]
    names = {"left": "right", "right": "left"}
    for name, point in one.points.items():
        twin = other.points.get(".".join(names.get(part, part) for part in name.split(".")))
        if twin is None:
            return math.inf
        gaps += [abs(point.x - twin.x), abs(point.y + twin.y), abs(point.sx - twin.sx), abs(point.sy - twin.sy)]
    if one.saddle is not None and other.saddle is not None:
        here, there = one.saddle, other.saddle
        gaps += [abs(a - b) for a, b in zip(from_nut(one), reversed(from_nut(other)), strict=True)]
        gaps += [abs(a - b) for a, b in zip(here.pm95, reversed(there.pm95), strict=True)]
        gaps += [abs(slant_of(one, "right") - slant_of(other, "left")), abs(here.slant_pm95 - there.slant_pm95)]
        gaps.append(math.inf if here.longer != there.longer else abs(here.slant - there.slant))
    return max(gaps)
