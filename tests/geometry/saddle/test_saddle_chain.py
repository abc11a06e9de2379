"""What board, frets and strings contribute to the saddle's ±."""

import math

import pytest
from msgspec.structs import replace

from geometry.job import Job, Spread, String, Strings
from geometry.layout import TWO_SIDED_95, Contribution, SaddlePlan
from geometry.units import mm
from geometry.work_out import lay_out, work_out
from tests.app.desk.conftest import sample
from tests.geometry.made import BOARD, Saddle, job, scales, six, surveyed

STEEL = Strings(
    list=tuple(
        String(name=n, pitch=p, diameter=d) for n, p, d in (("1", "E4", 0.3), ("2", "B3", 0.4), ("3", "G3", 0.5))
    ),
    nut=Spread(spread=36.0),
    saddle=Spread(spread=55.0),
)


def saddle_of(made: Job) -> SaddlePlan:
    saddle = lay_out(made, surveyed(BOARD, scales(643.0, 643.0))).saddle
    assert saddle is not None
    return saddle


def chain(saddle: SaddlePlan) -> dict[str, Contribution]:
    return {one.source: one for one in saddle.chain}


def test_strings_that_are_exact_contribute_nothing() -> None:
    """With typed compensation nothing of the saddle's ± is the strings' own."""
    saddle = saddle_of(job(strings=six(3.0, 3.0), saddle=Saddle()))
    found = chain(saddle)
    assert found["strings"].share == (0.0, 0.0)
    assert found["strings"].pm95 == pytest.approx(found["frets"].pm95)
    for side in (0, 1):
        assert found["board"].share[side] + found["frets"].share[side] == pytest.approx(1.0, abs=1e-12)
        assert found["board"].share[side] > 0.2  # the sheet lies on the board's end, which is read as well as the frets


def test_strings_that_are_estimated_carry_most_of_it() -> None:
    """The board and the frets are known to 0.1 mm, the strings' own ± is a multiple of that."""
    found = chain(saddle_of(job(strings=STEEL, saddle=Saddle())))
    assert min(found["strings"].share) > 0.5
    exact = chain(saddle_of(job(strings=six(3.0, 3.0), saddle=Saddle())))
    assert found["frets"].pm95 == pytest.approx(exact["frets"].pm95, abs=0.01)


def test_shares_add_up_and_the_last_link_is_the_whole() -> None:
    for name in ("leaning-neck", "turned-left", "tie-bridge", "small-four"):
        saddle = work_out(sample(name)).saddle
        assert saddle is not None
        assert [one.source for one in saddle.chain] == ["board", "frets", "strings"]
        for side in (0, 1):
            assert sum(one.share[side] for one in saddle.chain) == pytest.approx(1.0, abs=1e-12)
            assert saddle.chain[-1].pm95[side] == pytest.approx(saddle.by_sheet.pm95[side], rel=1e-9)


def test_the_frets_link_is_that_of_the_scale() -> None:
    """derived: a scale that is known to 0.1 mm carries ±1.96 × 0.1 mm to the nominal place, and nothing else of the
    frets does where both outer strings' were read.
    """
    board, frets, _ = saddle_of(job(strings=six(3.0, 3.0), saddle=Saddle())).chain
    for side in (0, 1):
        alone = math.sqrt(frets.pm95[side] ** 2 - board.pm95[side] ** 2)
        assert alone == pytest.approx(TWO_SIDED_95 * 0.1, rel=0.05)


def test_a_mirrored_board_swaps_the_sides() -> None:
    here = saddle_of(job(strings=six(4.0, 2.0), saddle=Saddle()))
    there = saddle_of(job(strings=six(4.0, 2.0), saddle=Saddle(), hand="left"))
    for one, other in zip(here.chain, there.chain, strict=True):
        assert one.share == pytest.approx(other.share[::-1], abs=1e-6)


def test_while_accused_readings_widen_the_saddles_pm_there_is_no_chain() -> None:
    """One fret misread by 4 mm: the saddle's ± covers its place with and without it, which no chain
    of variances tells.
    """
    right = sample("tie-bridge")
    misread = tuple(replace(r, value=mm(r.parts[0]) + 4.0) if r.id == "r18" else r for r in right.readings)
    saddle, plain = work_out(replace(right, readings=misread)).saddle, work_out(right).saddle
    assert saddle is not None
    assert plain is not None
    assert "r18" in saddle.waits_for
    assert max(saddle.pm95) > 2 * max(plain.chain[-1].pm95)
    assert saddle.chain == ()
