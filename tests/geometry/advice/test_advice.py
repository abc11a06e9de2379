"""The next reading: what it would narrow is what it does narrow, and enough is enough."""

from types import SimpleNamespace
from typing import Any

import msgspec
import numpy as np
import pytest

from geometry.advice import advise
from geometry.advice.candidates import candidates
from geometry.advice.measuring_lists import measuring_list
from geometry.advice.next_reading import _enough, _ranked
from geometry.advice.weighing import SADDLE, _frets, _slopes, _stand_in, _valued
from geometry.job import Job, Point, Reading, Spread, String, Strings
from geometry.job.bridges.floating import Floating
from geometry.job.bridges.separate import Separate
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.layout import Layout
from geometry.survey import survey
from geometry.survey.adjust.network import network_of
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.work_out import work_out
from tests.geometry.advice.test_measuring_lists import filled
from tests.geometry.survey.invented import BOARD, Wanted, job_of, taken
from tests.geometry.survey.test_verdicts import OLD, SQUARE, TIED


def fret(key: str, number: int, on: str, value: float, **more: object) -> Reading:
    return Reading(id=key, kind="fret", fret=number, on=on, value=value, **more)  # type: ignore[arg-type]


def strung(job: Job) -> Job:
    strings = Strings(
        list=tuple(String(name=str(n)) for n in range(1, 7)), saddle=Spread(spread=55.0), compensation=(2.0,) * 6
    )
    return msgspec.structs.replace(job, strings=strings)


def few_frets() -> Job:
    """A board well measured, the frets by the first and the twelfth alone."""
    frets = [fret(f"f{on}{n}", n, on, 648 * (1 - 2 ** (-n / 12))) for on in ("left", "right") for n in (1, 12)]
    return strung(job_of((*taken(OLD, TIED), *frets)))


def with_reading(job: Job, reading: Reading, value: float) -> Job:
    return msgspec.structs.replace(job, readings=(*job.readings, msgspec.structs.replace(reading, value=value)))


def true_value(reading: Reading) -> float:
    if reading.kind == "fret":
        return float(648 * (1 - 2 ** (-(reading.fret or 0) / 12)))
    a, b = (OLD[name] for name in reading.of)
    return abs(a - b)


def saddle(layout: Layout) -> float:
    assert layout.saddle is not None
    return max(layout.saddle.pm95)


def test_the_best_reading_for_the_saddle_comes_first_and_says_what_it_does() -> None:
    job = few_frets()
    layout = work_out(job)
    first = advise(job, layout).advice[0]
    assert first.reading.kind == "fret"
    assert first.reading.value is None
    assert first.saddle_before == pytest.approx(saddle(layout), rel=1e-6)
    assert first.saddle_after is not None
    assert first.saddle_after < 0.9 * saddle(layout)
    assert first.side == "right"


def test_what_it_promises_is_what_solving_anew_gives() -> None:
    """The rank-one updates against the whole survey with the readings in it, each with those before it."""
    job = few_frets()
    found = advise(job, work_out(job)).advice
    assert len(found) > 2
    for number, one in enumerate(found):
        reading = msgspec.structs.replace(one.reading, id=f"new.{number}")
        job = with_reading(job, reading, true_value(one.reading))
        again = work_out(job)
        if one.side is not None:
            assert again.saddle is not None
            assert again.saddle.pm95[one.side == "right"] == pytest.approx(one.saddle_after, rel=1e-3)
        assert all(again.points[name].checked for name in one.checks if name != SADDLE)


def test_a_point_that_nothing_checks_gets_a_reading_that_does() -> None:
    wanted: list[Wanted] = [*TIED[:11]]  # old.1 has five readings; old.2 gets two
    wanted += [("distance", "end.right old.2", ""), ("off", "old.2", "nut.right end.right")]
    job = job_of(taken(OLD, wanted, fine="caliper 0.1"))
    layout = work_out(job)
    assert not layout.points["old.2"].checked
    found = advise(job, layout).advice
    assert {"nut.left", "nut.right", "old.1"} <= set(found[0].checks)
    assert any("old.2" in one.checks for one in found)


def test_frets_that_leave_the_nut_open_ask_for_one_that_tells_of_it() -> None:
    frets = [fret(f"f{on}", 12, on, 324.0) for on in ("left", "right")]
    job = strung(job_of((*taken(OLD, TIED), *frets)))
    first = advise(job, work_out(job)).advice[0]
    assert (first.reading.kind, first.reading.fret, first.reading.on) == ("fret", 1, "left")
    assert first.side == "right"
    assert first.saddle_after is not None


def test_first_look_at_a_reading_that_is_out() -> None:
    readings = list(taken(OLD, TIED))
    readings[8] = msgspec.structs.replace(readings[8], value=float(readings[8].value) + 4)  # type: ignore[arg-type]
    job = job_of(tuple(readings))
    advised = advise(job, work_out(job))
    assert advised.advice == ()
    assert advised.enough.startswith("First look at what the readings say. “")


def test_nothing_measured_begins_with_the_list() -> None:
    assert advise(Job(), work_out(Job())).enough == "Nothing has been measured yet. Begin with the list."


def test_enough_is_said_with_the_reason() -> None:
    """Everything read three times over with a caliper: finer than players fret."""
    frets = [
        fret(f"f{on}{n}.{k}", n, on, 648 * (1 - 2 ** (-n / 12)), sigma=0.02)
        for on in ("left", "right")
        for n in (1, 3, 5, 7, 9, 12)
        for k in range(2)
    ]
    board = [
        msgspec.structs.replace(reading, id=f"{reading.id}.{k}", with_=None, sigma=0.02)
        for k in range(3)
        for reading in taken(BOARD, SQUARE)
    ]
    job = strung(job_of((*board, *frets)))
    layout = work_out(job)
    assert layout.saddle is not None
    assert max(layout.saddle.cents95) < 2
    advised = advise(job, layout)
    assert advised.advice == ()
    assert advised.enough.startswith("Nothing more is worth measuring. The saddle is known to ±")


def test_candidates_keep_within_the_reach_of_the_instruments() -> None:
    at = BOARD | {"far.1": 1500 + 0j, "near.1": 430 + 29j}
    found = candidates(Job(points=dict.fromkeys(at, Point())), at, ["far.1", "near.1"], {})
    for reading in found:
        if reading.kind == "distance":
            long = abs(at[reading.of[0]] - at[reading.of[1]])
            assert 8 < long < 1000
            assert reading.with_ == ("caliper 0.1" if long <= 150 else "rule 0.5")


def test_advice_for_a_filled_list_is_given_in_its_own_next_number() -> None:
    job = filled(measuring_list("neck and bridge", "right", 6), "right")
    for one in advise(job, work_out(job), survey(job)).advice:
        assert one.reading.id == f"r{len(job.readings) + 1}"


@pytest.mark.parametrize("read", [1, 4, 5, 6, 7, 12])
def test_the_fret_that_settles_the_nut_is_ranked_by_what_it_does(read: int) -> None:
    frets = [fret(f"f{on}", read, on, 648 * (1 - 2 ** (-read / 12))) for on in ("left", "right")]
    job = strung(job_of((*taken(OLD, TIED), *frets)))
    layout, first = work_out(job), advise(job, work_out(job)).advice[0]
    again = work_out(with_reading(job, first.reading, true_value(first.reading)))
    assert first.reading.kind == "fret"
    assert layout.saddle is not None
    assert again.saddle is not None
    assert sum(again.saddle.pm95) < 0.9 * sum(layout.saddle.pm95)


def test_points_and_frets_typed_far_off_do_not_stop_the_advice() -> None:
    far = Reading(id="far", kind="at", of=("old.1",), value=(1500.0, 1200.0))
    near = [
        Reading(id=f"at{name}", kind="at", of=(name,), value=(OLD[name].real, OLD[name].imag))
        for name in ("nut.left", "nut.right", "end.left", "end.right")
    ]
    frets = [fret(f"f{on}{n}", n, on, value) for on in ("left", "right") for n, value in ((1, 36.0), (7, 4900.0))]
    job = job_of((*near, far, *frets))
    assert work_out(job).survey.verdict in ("clean", "unchecked")
    assert advise(job, work_out(job)).advice


@pytest.mark.parametrize(("off", "value"), [(0.2, (1.0, 6.0)), (300.0, (300.0, 305.0)), (7000.0, (4995.0, 5000.0))])
def test_a_hole_typed_far_off_is_advised_as_far_as_a_reading_may_reach(off: float, value: tuple[float, float]) -> None:
    """derived: nothing farther than 5000 mm may be read; a usual hole of 5 mm, its middle at least 1 mm off (common
    practice, no source)
    """
    rims = Reading(id="new.0", kind="rims", of=("end.left", "pin.1"))
    (found,) = _valued([rims], {"pin.1": off + 0j, "end.left": 0j}, survey(job_of(taken(BOARD, SQUARE))))
    assert found.value == value


@pytest.mark.parametrize(("cents", "why"), [(1.99, "players fretting the same note"), (2.01, "would hardly narrow it")])
def test_enough_is_enough_for_two_reasons(cents: float, why: str) -> None:
    # R. M. Mottola, as in geometry/hearing: players differ by 2 cents
    seen = SimpleNamespace(
        job=Job(),
        layout=SimpleNamespace(
            saddle=SimpleNamespace(by_sheet=SimpleNamespace(pm95=(0.3, 0.7)), tune95=(0.9, cents)), strings=()
        ),
    )
    said = _enough(seen)  # type: ignore[arg-type]  # what it looks at
    assert why in said
    assert f"±0.7 mm, {cents:.1f} cents" in said


@pytest.mark.parametrize(
    ("held", "source", "says"),
    [
        (Job(), "worked out", " A trial saddle does: By ear, on the Strings card."),
        (Job(), "by ear", "would hardly narrow it."),
        (Job(floating=Floating()), "worked out", " Hearing it once it stands does: By ear, on the Strings card."),
        (Job(separate=Separate()), "worked out", "would hardly narrow it."),
    ],
)
def test_what_no_reading_narrows_hearing_does_while_it_is_worked_out(held: Job, source: str, says: str) -> None:
    saddle = SimpleNamespace(by_sheet=SimpleNamespace(pm95=(0.3, 0.7)), tune95=(0.9, 2.5))
    layout = SimpleNamespace(saddle=saddle, strings=(SimpleNamespace(compensation_from=source),))
    assert _enough(SimpleNamespace(job=held, layout=layout)).endswith(says)  # type: ignore[arg-type]


def test_an_outer_path_that_was_not_read_stands_beside_one_that_was() -> None:
    """derived: half of what the paths lie apart to either side of their middle, as the layout takes them, and all of
    it beside the other path.
    """
    centre = {"scale.centre": 0, "askew.scale": 1}
    assert _stand_in("scale.left", centre) == (("scale.centre", 1.0), ("askew.scale", 0.5))
    assert _stand_in("scale.right", centre) == (("scale.centre", 1.0), ("askew.scale", -0.5))
    unread = {"unread.shift": 0, "askew.shift": 1}
    assert _stand_in("shift.left", unread) == (("unread.shift", 1.0), ("askew.shift", 0.5))
    assert _stand_in("scale.left", {"scale.right": 0, "askew.scale": 1}) == (("scale.right", 1.0), ("askew.scale", 1.0))
    assert _stand_in("scale.centre", centre) == _stand_in("scale.left", {"askew.scale": 1}) == ()


@pytest.mark.parametrize(("read", "offered"), [("left", ["left", "right"]), ("centre", ["left", "right", "centre"])])
def test_frets_on_the_centre_line_are_offered_where_some_were_read(read: str, offered: list[str]) -> None:
    job = job_of((*taken(OLD, TIED), *(fret(f"f{n}", n, read, 648 * (1 - 2 ** (-n / 12))) for n in (5, 12))))
    assert list(_frets(job, survey(job))) == offered


@pytest.mark.parametrize(("tool", "known"), [("rule 0.5", False), ("caliper 0.1", False), ("rule 1/64", True)])
def test_a_rule_that_nothing_was_read_with_brings_its_own_error_along(tool: str, known: bool) -> None:
    """Derived: its own error and its zero, and its legal error in proportion to the length; a rule in use brings none,
    for its error is an unknown already, and a caliper has none.
    """
    read = tuple(msgspec.structs.replace(r, with_="rule 1/64", sigma=None) for r in taken(BOARD, SQUARE))
    job = job_of(read)
    new = Reading(id="new", kind="distance", of=("nut.left", "end.right"), value=440.0, with_=tool)
    _, variance = _slopes(network_of(rows_of(job, [new])), survey(job), [new])
    own = INSTRUMENTS[tool]
    more = 0.0 if known else (0.440 * own.per_metre) ** 2
    assert variance == pytest.approx([own.reading**2 + own.zero**2 + more])


@pytest.mark.parametrize(
    ("off", "kinds"),
    # derived: fret board's left edge along x; under 8 mm nothing is read square to it, nor from corner to corner
    [
        (7.5, ["along"]),
        (-7.5, ["along"]),
        (8.5, ["along", "off left"]),
        (-8.5, ["along", "off right"]),
    ],
)
def test_no_reading_is_advised_that_is_shorter_than_a_hand_reads(off: float, kinds: list[str]) -> None:
    at = {"nut.left": 0j, "end.left": 440 + 0j, "seam.1": 200 + 1j * off}
    found = candidates(Job(points=dict.fromkeys(at, Point())), at, ["seam.1"], {})
    assert [f"{one.kind} {one.side or ''}".strip() for one in found if one.kind != "distance"] == kinds


@pytest.mark.parametrize(("long", "told"), [(7.5, False), (8.5, True), (995.0, True), (1005.0, False), (1200.0, False)])
def test_no_distance_is_advised_beyond_a_rule_or_under_a_caliper(long: float, told: bool) -> None:
    at = {"nut.left": 0j, "nut.right": -1j * long}
    found = candidates(Job(points=dict.fromkeys(at, Point())), at, [], {})
    assert [one.kind for one in found] == ["distance"] * told


@pytest.mark.parametrize(
    ("checks", "shown", "best"),
    [
        # derived: a slip shown counts a hundredth, a point a twentieth, a corner a fifth, the saddle one
        (("old.1",), 4, "a"),
        (("old.1",), 6, "b"),
        (("old.1", "old.2", "old.3"), 14, "a"),
        (("old.1", "old.2", "old.3"), 16, "b"),
        (("end.left",), 19, "a"),
        (("end.left",), 21, "b"),
        ((SADDLE,), 99, "a"),
        ((SADDLE,), 101, "b"),
        ((), 1, "b"),
    ],
)
def test_a_point_checked_outweighs_a_few_slips_shown_and_many_outweigh_it(
    checks: tuple[str, ...], shown: int, best: str
) -> None:
    """What it ranks: first the saddle checked, then corners of the board, then other points, then slips that would
    show in readings taken already. Five of these stand for a point, twenty for a corner, and a hundred for the saddle
    (common practice, no source). One alone is still worth a reading where nothing else is.
    """
    taken = list[int]()
    readings = [Reading(id=name, kind="distance", of=(name, "z"), value=1.0) for name in "ab"]
    seen: Any = SimpleNamespace(
        job=Job(),
        readings=readings,
        saddle_sd=np.zeros(2),
        take=taken.append,
        narrows=lambda: (np.zeros(2), np.zeros(2)),
        checks=lambda: ([checks, ()], [(), ("r",) * shown]) if not taken else ([(), ()], [(), ()]),
    )
    assert [one.reading.of[0] for one in _ranked(seen)] == [best]
