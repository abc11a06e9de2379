"""The hand of the campaign errs as much as it is said to, and slips where it is told to."""

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Reading
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.job.sides import Side
from geometry.units import mm
from tests.campaign.invented.cases import CASES, LISTS
from tests.campaign.invented.crooked import Wish, drawn
from tests.campaign.invented.hand_slips import contradicts, mirrors
from tests.campaign.invented.hands import (
    Errors,
    Manner,
    Values,
    _on_the_marks,
    _with_errors,
    sixty_fourths,
    true_values,
)
from tests.campaign.invented.mirroring import mirrored
from tests.campaign.invented.trials import trial_of
from tests.geometry.survey.invented import SIDES_AND_DIAGONALS

TRUE = 300.0
LAID = [Reading(id=f"r{i}", kind="distance", of=("a", "b"), with_="rule 0.5", laid="one") for i in range(2)]


def case(name: str) -> int:
    return next(i for i, case in enumerate(CASES) if case.name == name)


def read(manner: Manner, count: int = 4000) -> list[tuple[float, float]]:
    """Two readings of one laying each, of true lengths that fall anywhere between the marks; how far each is off."""
    random, found = np.random.default_rng(3), []
    for _ in range(count):
        errors, true = Errors(random, manner), float(random.uniform(TRUE, TRUE + 1))
        pair = []
        for reading in LAID:
            marked = _on_the_marks(reading, _with_errors(reading, (true,), errors), inch=False)
            pair.append(mm(marked.parts[0]) - true)
        found.append((pair[0], pair[1]))
    return found


# The spread of n normal errors is known to 1/√(2n) of itself: 1.1 % of 4000, and 4 of these are a rare chance.
WITHIN = 0.045
PRESET = INSTRUMENTS["rule 0.5"]
RULE = PRESET.per_metre * 0.3


@pytest.mark.parametrize(
    ("manner", "own"),
    [
        (Manner(), PRESET.reading),
        (Manner(tailed=True), PRESET.reading),
        # derived: 0.5 mm from mark to mark is 0.5/√12 more
        (Manner(marks="on top"), np.hypot(PRESET.reading, 0.5 / 12**0.5)),
    ],
)
def test_the_errors_are_as_large_as_stated(manner: Manner, own: float) -> None:
    pairs = np.array(read(manner))
    # derived: what two readings of one laying differ by holds both their own errors, and no zero
    assert np.std(pairs[:, 0] - pairs[:, 1]) / 2**0.5 == pytest.approx(own, rel=WITHIN)
    assert np.std(pairs[:, 0]) == pytest.approx(np.sqrt(own**2 + PRESET.zero**2 + RULE**2), rel=WITHIN)


def test_without_zero_errors_only_the_rule_is_common() -> None:
    pairs = np.array(read(Manner(zero=False)))
    assert np.std(pairs.mean(axis=1)) == pytest.approx(np.sqrt(PRESET.reading**2 / 2 + RULE**2), rel=WITHIN)


def test_a_value_stands_on_a_mark() -> None:
    rule = Reading(id="r", kind="distance", of=("a", "b"), with_="rule 0.5")
    assert _on_the_marks(rule, (43.62,), inch=False).value == 43.5
    inches = Reading(id="r", kind="distance", of=("a", "b"), with_="rule 1/64")
    assert _on_the_marks(inches, (643.73,), inch=True).value == "25 11/32 in"
    assert [sixty_fourths(count) for count in (64, 32, 97)] == ["1 in", "1/2 in", "1 33/64 in"]


def test_true_values_by_hand() -> None:
    true = drawn(np.random.default_rng(1), Wish())
    flat = {"a": 0j, "b": 100 + 0j, "p": 30 + 40j, "q": 30 - 40j}
    known = replace(true, points=flat, holes={"p": 6.0})
    ab = ("a", "b")
    wanted: list[tuple[Reading, Values]] = [
        (Reading(id="1", kind="distance", of=("a", "p")), (50.0,)),
        (Reading(id="2", kind="along", of=("p",), from_=ab), (30.0,)),
        (Reading(id="3", kind="off", of=("q",), from_=ab, side="right"), (40.0,)),
        (Reading(id="4", kind="meets", of=("p", "q"), from_=ab), (30.0,)),
        (Reading(id="5", kind="rims", of=("a", "p")), (47.0, 53.0)),
        (Reading(id="6", kind="inline", of=("q",), from_=ab), (-40.0,)),
    ]
    for reading, values in wanted:
        assert true_values(reading, known) == pytest.approx(values), reading.kind


def test_the_same_seed_gives_the_same_trial() -> None:
    for at in (0, case("swapped")):
        assert trial_of(CASES[at], 7, 4) == trial_of(CASES[at], 7, 4)
        assert trial_of(CASES[at], 7, 4).job != trial_of(CASES[at], 8, 4).job


def test_each_list_has_its_turn() -> None:
    assert [trial_of(CASES[0], 7, index).list for index in range(3)] == list(LISTS)


def test_a_misread_fret_is_out_by_what_is_said() -> None:
    slipping = CASES[case("misread fret, bridge only")]
    for index in range(20):
        trial = trial_of(slipping, 7, index)
        (wrong,) = trial.wrong
        reading = next(reading for reading in trial.job.readings if reading.id == wrong)
        side = 0 if reading.on == "left" else 1
        # derived: on a square instrument a fret stands at its share of nominal place and shift together
        nominal, share = trial.truth.nominal[side], 1 - 2 ** (-(reading.fret or 0) / 12)
        off = [mm(reading.parts[0]) - share * (nominal + shift) + shift for shift in (-1.0, 1.0)]
        assert max(abs(value) for value in off) > 0.2
        assert min(abs(value) for value in off) < 7.5


def test_few_frets_are_one_to_three_a_side() -> None:
    for index in range(12):
        job = trial_of(CASES[case("moved nut, few frets")], 7, index).job
        for side in ("left", "right"):
            assert 1 <= sum(r.kind == "fret" and r.on == side and r.value is not None for r in job.readings) <= 3


def test_a_mirror_s_mirror_is_the_job() -> None:
    for index in range(3):
        job = trial_of(CASES[0], 7, index).job
        assert mirrored(job) != job
        assert mirrored(mirrored(job)) == job


@pytest.mark.parametrize(
    ("lengths", "seen"),
    [
        # derived: a rectangle of 3 by 4 has diagonals of 5
        ((30, 30, 40, 40, 50, 50), False),
        ((30, 30, 40, 40, 50, 55), True),
        # derived: an isosceles trapezium, d² = s² + ab, stood on its head
        ((40, 50, 430, 430, 432.3193, 432.3193), False),
        ((50, 40, 430, 430, 432.3193, 432.3193), False),
    ],
)
def test_whether_six_lengths_contradict_each_other(lengths: tuple[float, ...], seen: bool) -> None:
    readings = [Reading(id=f"r{i}", kind="distance", of=of) for i, of in enumerate(SIDES_AND_DIAGONALS)]
    taken: dict[str, Values] = {f"r{i}": (float(length),) for i, length in enumerate(lengths)}
    assert contradicts(readings, taken) is seen


def test_readings_that_mirror_each_other() -> None:
    left, right = (Reading(id=s, kind="off", of=("seam.1",), from_=(f"nut.{s}", f"end.{s}"), side=o) for s, o in PAIR)
    other = Reading(id="o", kind="off", of=("seam.2",), from_=("nut.right", "end.right"), side="left")
    assert mirrors(left, right)
    assert not mirrors(left, other)
    first = Reading(id="a", kind="fret", fret=1, on="left")
    twelfth, across = (Reading(id=side, kind="fret", fret=12, on=side) for side, _ in PAIR)
    assert mirrors(twelfth, across)
    assert not mirrors(first, twelfth)


def test_exchanges_are_of_all_kinds_that_can_be() -> None:
    swapping = CASES[case("swapped")]
    kinds = set()
    for index in range(60):
        trial = trial_of(swapping, 7, index)
        kinds |= {reading.kind for reading in trial.job.readings if reading.id in trial.wrong}
    assert {"distance", "along", "off", "fret"} <= kinds


PAIR: list[tuple[Side, Side]] = [("left", "right"), ("right", "left")]
