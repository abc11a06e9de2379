"""The bounds of the strings, each tried on both sides. All figures: common practice, no source."""

import pytest
from msgspec.structs import replace

from geometry.bounds import stringing_asked
from geometry.job import Job, Spread
from geometry.strings.string_make import of_usual_make
from geometry.strings.usual_sets import SETS
from geometry.units import mm
from geometry.work_out import work_out
from tests.geometry.bounds.right_jobs import changed, found, grade, invented, sample


def compensated(first: float) -> Job:
    job = invented()
    assert job.strings is not None
    typed = job.strings.compensation
    assert isinstance(typed, tuple)
    return changed(job, strings={"compensation": (first, *typed[1:])})


@pytest.mark.parametrize(
    ("mm", "expected"), [(-5.01, "stop"), (-4.99, ""), (14.99, ""), (15.01, "stop"), (25.0, "stop"), (-15.0, "stop")]
)
def test_a_typed_compensation(mm: float, expected: str) -> None:
    assert grade(compensated(mm), "compensation.beyond") == expected


def test_a_compensation_worked_out_that_no_string_wants() -> None:
    """A string half as thick again as wide: it asks for centimetres, and the sentence says where to look."""
    job = sample()
    assert job.strings is not None
    thick = replace(job.strings.list[5], diameter=3.9, core=2.6)
    told = found(changed(job, strings={"list": (*job.strings.list[:5], thick)}), "compensation.beyond")
    assert told is not None
    assert told.grade == "stop"
    assert told.values["mm"] > stringing_asked.COMPENSATION[1]
    assert "asks for" in told.text
    assert "count the frets again" in told.text
    assert found(job, "compensation.beyond") is None


@pytest.mark.parametrize(
    ("mm", "expected"),
    [
        (0.39, ""),
        (0.41, "look"),
        (-1.19, ""),
        (-1.21, "look"),
        (-4.99, "look"),
        (4.99, "look"),
        (5.01, "stop"),
        (-5.01, "stop"),
    ],
)
def test_the_nut(mm: float, expected: str) -> None:
    assert grade(changed(sample(), strings={"nut_compensation": mm}), "nut.beyond") == expected


def test_the_nut_that_is_named_is_farthest_beyond_its_own_side() -> None:
    """0.6 mm farther from fret 1 is 1.5 times what is usual there, 1.3 mm nearer 1.08 times."""
    told = found(changed(sample(), strings={"nut_compensation": (0.0, 0.0, -1.3, 0.0, 0.6, 0.0)}), "nut.beyond")
    assert told is not None
    assert told.values["mm"] == 0.6
    assert "String 5".lower() in told.text.lower()
    assert "few nuts are moved that way by more than 0.4 mm" in told.text
    assert "minus is nearer to fret 1" in told.text


def test_a_nut_that_is_worked_out_lies_within() -> None:
    assert grade(changed(sample(), strings={"nut_compensation": "worked out"}), "nut.beyond") == ""


@pytest.mark.parametrize(("mm", "expected"), [(0.4, ""), (0.41, "look"), (3.0, "look")])
def test_the_relief(mm: float, expected: str) -> None:
    assert grade(changed(sample(), strings={"relief": mm}), "neck.relief") == expected


@pytest.mark.parametrize(("mm", "expected"), [(15.0, ""), (15.1, "look")])
def test_the_finger(mm: float, expected: str) -> None:
    assert grade(changed(sample(), strings={"press_behind": mm}), "press.far") == expected


@pytest.mark.parametrize(("hz", "expected"), [(411.0, "look"), (412.0, ""), (450.0, ""), (451.0, "look")])
def test_the_reference(hz: float, expected: str) -> None:
    assert grade(changed(sample(), strings={"a4": hz}), "strings.reference") == expected


@pytest.mark.parametrize(("wider", "expected"), [(-0.1, "look"), (0.0, ""), (35.0, ""), (35.1, "look")])
def test_the_spread(wider: float, expected: str) -> None:
    job = sample()
    assert job.strings is not None
    assert job.strings.nut is not None
    nut = mm(job.strings.nut.spread)
    assert grade(changed(job, strings={"saddle": Spread(spread=nut + wider)}), "strings.spread") == expected


@pytest.mark.parametrize(("times", "expected"), [(0.32, "look"), (0.35, ""), (2.9, ""), (3.1, "look")])
def test_a_stretch_ratio(times: float, expected: str) -> None:
    job = sample()
    assert job.strings is not None
    first, pull = job.strings.list[0], work_out(job).strings[0].tension_n
    usual = of_usual_make(first)
    assert usual is not None
    assert pull is not None
    ratio = times * (usual.kappa(pull) - 1) / 2
    made = changed(job, strings={"list": (replace(first, stretch_ratio=ratio), *job.strings.list[1:])})
    assert grade(made, "strings.make") == expected


@pytest.mark.parametrize(
    ("build", "mm", "expected"),
    [("plain", 0.51, ""), ("plain", 0.53, "look"), ("wound", 0.41, "look"), ("wound", 0.43, "")],
)
def test_a_steel_string_plain_or_wound(build: str, mm: float, expected: str) -> None:
    job = sample()
    assert job.strings is not None
    third = replace(job.strings.list[2], build=build, diameter=mm)
    strings = (*job.strings.list[:2], third, *job.strings.list[3:])
    assert grade(changed(job, strings={"list": strings}), "strings.make") == expected


@pytest.mark.parametrize(("times", "expected"), [(1.64, ""), (1.66, "look"), (1 / 1.64, ""), (1 / 1.66, "look")])
def test_a_string_that_pulls_unlike_the_others(times: float, expected: str) -> None:
    """The middle pull of six is the mean of the third and the fourth, neither of which is changed."""
    job = sample()
    assert job.strings is not None
    pulls = [plan.tension_n or 0.0 for plan in work_out(job).strings]
    # derived: with the sixth above or below all others, the middle of the others' order shifts by one place
    others = sorted(pulls[:5])
    middle = (others[2] + (others[3] if times > 1 else others[1])) / 2
    last = job.strings.list[5]
    mass = {"kg_per_m": times * middle / pulls[5] * _mass(pulls[5], work_out(job).strings[5].nominal)}
    made = changed(job, strings={"list": (*job.strings.list[:5], replace(last, **mass))})
    assert grade(made, "strings.uneven") == expected


def _mass(pull: float, length: float) -> float:
    """Derived: T = m (2 L f)², E2 at 82.4069 Hz."""
    return pull / (2 * length / 1000 * 82.4069) ** 2


def test_two_strings_that_sound_alike_and_are_no_pair() -> None:
    job = sample()
    assert job.strings is not None
    alike = replace(job.strings.list[5], pitch=job.strings.list[4].pitch)
    assert grade(changed(job, strings={"list": (*job.strings.list[:5], alike)}), "strings.alike") == "look"
    assert grade(job, "strings.alike") == ""


@pytest.mark.parametrize(("courses", "expected"), [((5, 5), ""), ((5, 6), "look"), ((5, None), "look")])
def test_strings_of_one_course_may_sound_alike(courses: tuple[int, int | None], expected: str) -> None:
    job = sample()
    assert job.strings is not None
    *others, fifth, sixth = job.strings.list
    pair = replace(fifth, course=courses[0]), replace(sixth, pitch=fifth.pitch, course=courses[1])
    assert grade(changed(job, strings={"list": (*others, *pair)}), "strings.alike") == expected


def test_more_old_holes_than_strings() -> None:
    job = sample()
    assert job.strings is not None
    assert grade(job, "strings.count") == ""
    assert grade(changed(job, strings={"list": job.strings.list[:5]}), "strings.count") == "look"


@pytest.mark.parametrize("string", [0, 2, 4])
@pytest.mark.parametrize(("off", "expected"), [(2.45, ""), (2.55, "look"), (-2.45, ""), (-2.55, "look")])
def test_a_typed_compensation_off_the_others(string: int, off: float, expected: str) -> None:
    """Derived: on a straight line but for one string, that one is off by what was added to it. The pitch of one is not
    known; where all are, they are held against what they ask for.
    """
    job = sample()
    assert job.strings is not None
    line = [2.6 + 0.3 * i for i in range(6)]
    line[string] += off
    unknown = (*job.strings.list[:5], replace(job.strings.list[5], pitch=None))
    typed = {"compensation": tuple(line), "list": unknown}
    assert grade(changed(job, strings=typed), "compensation.uneven") == expected
    assert grade(changed(job, strings={"compensation": tuple(line)}), "compensation.uneven") == ""


@pytest.mark.parametrize("name", ["steel 12-54", "steel 10-46", "silk and steel 11-46"])
def test_what_a_known_set_asks_for_may_be_typed(name: str) -> None:
    """A plain second string beside a wound third lies off the others' line by right."""
    job = changed(sample(), strings={"list": SETS[name].strings})
    asked = tuple(round(plan.compensation, 1) for plan in work_out(job).strings)
    typed = changed(job, strings={"compensation": asked})
    assert [one.code for one in work_out(typed).findings if one.code.startswith("compensation.")] == []


def test_a_compensation_that_is_worked_out_may_lie_off_the_others() -> None:
    assert grade(sample(), "compensation.uneven") == ""


def test_steel_among_strings_without() -> None:
    job = sample()
    assert job.strings is not None
    assert grade(job, "strings.mixed") == ""
    strings = (*job.strings.list[:5], replace(job.strings.list[5], material="nylon"))
    assert grade(changed(job, strings={"list": strings}), "strings.mixed") == "look"


@pytest.mark.parametrize(("together", "expected"), [(3, ""), (4, "look")])
def test_how_many_strings_make_a_course(together: int, expected: str) -> None:
    job = sample()
    assert job.strings is not None
    strings = tuple(replace(s, course=1 if i < together else i + 1) for i, s in enumerate(job.strings.list))
    assert grade(changed(job, strings={"list": strings}), "strings.course") == expected


def test_a_typed_saddle_that_leans_against_what_the_strings_ask_for() -> None:
    job = sample()
    # derived: bass less treble is 2 − 4, and thicker strings ask for more
    against = changed(job, strings={"compensation": (4.0, 3.7, 3.4, 3.0, 2.5, 2.0)})
    told = found(against, "saddle.leans")
    assert told is not None
    saddle = work_out(against).saddle
    assert saddle is not None
    assert saddle.wrong_way == ("saddle",)
    assert told.grade == "stop"
    assert told.values["typed"] == pytest.approx(-2.0)
    assert told.values["asked"] > 0.5
    assert found(changed(job, strings={"compensation": (2.0, 2.3, 2.6, 3.0, 3.5, 4.0)}), "saddle.leans") is None
