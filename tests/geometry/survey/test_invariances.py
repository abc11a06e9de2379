"""Turning, moving and mirroring the instrument, the order and the names of readings and the unit change nothing."""

import cmath
from typing import Literal

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.job import Job, Point, Reading
from geometry.survey import Free, Network, adjust, network_of, rows_of, survey
from geometry.survey.result import Surveyed
from tests.geometry.survey.invented import BOARD, Wanted, job_of, taken
from tests.geometry.survey.test_verdicts import OLD, TIED

few = settings(max_examples=25, deadline=None)
seeds = st.integers(0, 10_000)
WANTED: list[Wanted] = [
    *TIED,
    ("along", "old.2", "nut.right end.right"),
    ("across", "old.1 old.2", "nut.left end.left"),
]


def readings(seed: int) -> tuple[Reading, ...]:
    return taken(OLD, WANTED, np.random.default_rng(seed))


def spans(solved: Surveyed, names: dict[str, str] | None = None) -> dict[tuple[str, str], float]:
    """All distances between solved points, by their names before any change."""
    old = {new: name for name, new in (names or {}).items()}
    at = {old.get(name, name): complex(*solved.state[c : c + 2]) for name, c in solved.point_at.items()}
    return {(a, b): abs(at[a] - at[b]) for a in sorted(at) for b in sorted(at) if a < b}


def same(one: Surveyed, two: Surveyed, names: dict[str, str] | None = None, scale: float = 1.0) -> None:
    first, second = spans(one), spans(two, names)
    assert {key: scale * value for key, value in second.items()} == pytest.approx(first, rel=1e-8, abs=1e-8)
    assert two.report.vtpv == pytest.approx(one.report.vtpv, rel=1e-8, abs=1e-10)
    fits = {fit.id: fit for fit in two.fits}
    for fit in one.fits:
        assert fits[fit.id].redundancy == pytest.approx(fit.redundancy, rel=1e-8, abs=1e-8)
        assert fits[fit.id].w == pytest.approx(fit.w, rel=1e-7, abs=1e-7)
    assert (two.report.verdict, sorted(two.report.suspects)) == (one.report.verdict, sorted(one.report.suspects))


@few
@given(seeds, st.randoms(use_true_random=False))
def test_the_order_of_readings(seed: int, shuffle: object) -> None:
    before = readings(seed)
    after = list(before)
    shuffle.shuffle(after)  # type: ignore[attr-defined]
    same(survey(job_of(before)), survey(job_of(tuple(after))))


@few
@given(seeds)
def test_the_names_of_points(seed: int) -> None:
    """Points with names of no meaning: then only what is measured counts, and a side from `off` settles the mirror."""
    before = readings(seed)
    plain = {name: f"p{n}" for n, name in enumerate(OLD)}
    again = {name: f"q{9 - n}" for n, name in enumerate(OLD)}
    same(
        survey(job_of(renamed(before, plain))),
        survey(job_of(renamed(before, again))),
        {plain[n]: again[n] for n in OLD},
    )


def renamed(before: tuple[Reading, ...], names: dict[str, str]) -> tuple[Reading, ...]:
    return tuple(
        msgspec.structs.replace(r, of=tuple(names[n] for n in r.of), from_=tuple(names[n] for n in r.from_))
        for r in before
    )


@few
@given(seeds)
def test_a_mirrored_instrument_is_the_mirror_image(seed: int) -> None:
    before = readings(seed)
    swap: dict[str | None, Literal["left", "right"] | None] = {"left": "right", "right": "left", None: None}
    names = {n: n.replace("left", "#").replace("right", "left").replace("#", "right") for n in OLD}
    names |= {"old.1": "old.2", "old.2": "old.1"}
    after = tuple(
        msgspec.structs.replace(r, side=swap[r.side], of=r.of[::-1] if r.kind == "across" else r.of)
        for r in renamed(before, names)
    )
    same(survey(job_of(before)), survey(job_of(after)), names)


@few
@given(seeds)
def test_millimetres_against_inches(seed: int) -> None:
    before = readings(seed)
    after = tuple(msgspec.structs.replace(r, value=f"{float(r.value) / 25.4!r} in") for r in before)  # type: ignore[arg-type]
    same(survey(job_of(before)), survey(job_of(after)))


@few
@given(seeds, st.floats(-3.1, 3.1), st.complex_numbers(max_magnitude=5000, allow_nan=False))
def test_moving_and_turning_the_start_moves_and_turns_the_result(seed: int, turn: float, shift: complex) -> None:
    """In a free datum the figure follows its start places; its covariance turns with it."""
    net = net_of(seed)
    spin = cmath.exp(1j * turn)
    here = adjust(net, Free(net.points), pairs(OLD))
    there = adjust(net, Free(net.points), pairs({name: z * spin + shift for name, z in OLD.items()}))
    for name in net.points:
        expected = complex(*here.place(name)) * spin + shift
        assert complex(*there.place(name)) == pytest.approx(expected, rel=1e-8, abs=1e-8)
        rotation = np.array([[spin.real, -spin.imag], [spin.imag, spin.real]])
        assert there.spread(name) == pytest.approx(rotation @ here.spread(name) @ rotation.T, rel=1e-6, abs=1e-10)
    assert there.residual == pytest.approx(here.residual, abs=1e-8)


def net_of(seed: int) -> Network:
    return network_of(rows_of(job_of(readings(seed))))


def pairs(places: dict[str, complex]) -> dict[str, tuple[float, float]]:
    return {name: (z.real, z.imag) for name, z in places.items()}


@few
@given(seeds)
def test_rough_places_change_nothing_where_readings_suffice(seed: int) -> None:
    rng = np.random.default_rng(seed)
    before = job_of(readings(seed))
    near = {n: Point(near=(float(z.real + rng.normal(0, 6)), float(z.imag + rng.normal(0, 6)))) for n, z in OLD.items()}
    same(survey(before), survey(msgspec.structs.replace(before, points={n: near[n] for n in before.points})))


@few
@given(seeds)
def test_redundancy_numbers_add_up_to_the_readings_left_over(seed: int) -> None:
    """The trace of the projector (sum of r = m − rank), with what is known beforehand counted as rows too."""
    net = net_of(seed)
    done = adjust(net, Free(net.points), pairs(OLD))
    assert done.redundancy.sum() == pytest.approx(done.dof, abs=1e-8)


def test_the_same_job_gives_the_same_result_to_the_last_digit() -> None:
    job: Job = job_of(readings(3))
    survey(job_of(readings(4)))
    one, two = survey(job), survey(job)
    assert np.array_equal(one.state, two.state)
    assert one.report == two.report
    assert BOARD["nut.left"] == OLD["nut.left"]
