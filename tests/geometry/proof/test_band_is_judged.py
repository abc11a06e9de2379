"""What is told as the band of a distance is what it is judged by, in each unit, on card and paper."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from geometry.job import Job, Proof
from geometry.proof import Proved, band_words, prove
from geometry.proof.proof_at_stage import Row, wished
from geometry.survey import survey
from geometry.units import MM_PER, Unit, as_shown, good_within, parse, show
from tests.geometry.go_or_wait.test_what_if import sample

FINER = 0.02
"""mm: less than any step that is shown."""
JOBS = {name: sample(name) for name in ("leaning-neck", "turned-left", "tie-bridge")}
READY = {name: (survey(job), wished(job)) for name, job in JOBS.items()}
UNITS: tuple[Unit, ...] = ("mm", "cm", "in")


def told(job: Job, row: Row) -> tuple[float, float]:
    """The band as it is told: its middle and how far either way, mm."""
    middle, pm = band_words(job, row).removesuffix(f" {job.unit}").split(" ±")
    return parse(middle, job.unit), parse(pm, job.unit)


def judged(name: str, unit: Unit, read_in: Unit, values: Sequence[float | None]) -> tuple[Job, Proved]:
    """The proof of a job in `unit`, of distances (mm) that were read in another, or in the same."""
    surveyed, asked = READY[name]
    typed = [None if value is None else f"{value / MM_PER[read_in]:.9f} {read_in}" for value in values]
    readings = tuple(replace(one, value=value) for one, value in zip(asked, typed, strict=True))
    job = replace(JOBS[name], unit=unit, proof=(Proof(stage="clamped", readings=readings),))
    found = prove(job, "clamped", surveyed, asked)
    assert found is not None
    return job, found


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("name", JOBS)
@given(sides=st.lists(st.sampled_from((-1, 1)), min_size=6, max_size=6), by=st.floats(-FINER, FINER))
def test_what_is_told_is_what_is_judged(name: str, unit: Unit, sides: list[int], by: float) -> None:
    """Read at the edges of the bands that are told, and a little within and beyond them."""
    count = len(READY[name][1])
    job, plain = judged(name, unit, unit, [None] * count)
    edges = [told(job, row) for row in plain.rows]
    off = 0.0 if abs(by) < 1e-5 else by
    values = [middle + side * (pm + off) for (middle, pm), side in zip(edges, sides, strict=False)]
    _, found = judged(name, unit, unit, values)
    assert {row.good for row in found.rows} == {"good" if off <= 0 else "not good"}
    if off > 0:
        assert found.wrong


@pytest.mark.parametrize(("unit", "read_in"), [("in", "mm"), ("mm", "in"), ("in", "cm")])
@pytest.mark.parametrize("name", JOBS)
@given(sides=st.lists(st.sampled_from((-1, 1)), min_size=6, max_size=6), by=st.floats(-FINER, FINER))
def test_a_rule_of_other_units_is_judged_by_the_band_as_it_was_worked_out(
    name: str, unit: Unit, read_in: Unit, sides: list[int], by: float
) -> None:
    """A right bridge is not called wrong because a millimetre is no whole number of 64ths."""
    _, plain = judged(name, unit, unit, [None] * len(READY[name][1]))
    off = 0.0 if abs(by) < 1e-5 else by
    values = [
        row.wanted + side * (max(row.band, good_within(0.0, unit)) + off)
        for row, side in zip(plain.rows, sides, strict=False)
    ]
    _, found = judged(name, unit, read_in, values)
    assert {row.good for row in found.rows} == {"good" if off <= 0 else "not good"}


@pytest.mark.parametrize("unit", UNITS)
@given(wanted=st.floats(50, 700), band=st.floats(0.01, 5))
def test_a_told_band_is_rounded_down_but_never_to_none(unit: Unit, wanted: float, band: float) -> None:
    within = good_within(band, unit)
    step = good_within(0.0, unit)
    assert within <= max(band, step) + 1e-6
    assert within > band - step - 1e-6
    assert parse(show(within, unit), unit) == pytest.approx(within, abs=1e-9)
    assert parse(show(wanted, unit), unit) == pytest.approx(as_shown(wanted, unit), abs=1e-9)
