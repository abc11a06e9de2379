"""Compensation by ear, alone and weighed against what is worked out."""

import msgspec
import numpy as np
import pytest

from geometry.job import Heard, Heights, String, Strings
from geometry.strings.compensation import compensate, residual_cents, strings_as_played
from geometry.strings.trial_saddles import ByEar, Trial, by_ear, hearing_findings, with_what_was_heard
from geometry.strings.usual_sets import SETS
from tests.published.string_cases import equal_frets

FRETS = equal_frets(650.0, 6, 20)
STEEL = Strings(list=SETS["steel 12-54"].strings, height=Heights(nut=0.45, saddle=3.2))
UNKNOWN = Strings(list=tuple(String(name=str(i)) for i in range(1, 7)))
PLACES = np.array([1.0, 1.6, 2.2, 2.8, 3.4, 4.0])
TRIALS = {"1": Trial(PLACES, np.zeros(6))}


def listen(strings: Strings, *heard: Heard) -> tuple[ByEar, ...]:
    return by_ear(strings_as_played(msgspec.structs.replace(strings, heard=heard), "right", FRETS), TRIALS)


def test_a_string_of_unknown_make_goes_where_the_ear_sends_it() -> None:
    # derived: at 4.0 past the nominal place a move of 1 mm is 1200/ln 2 x (1/329.0 - 1/654.0) = 2.615 cents
    (found,) = listen(UNKNOWN, Heard(string="6", cents=6, trial="1", against="open"))
    assert found.worked_out is None
    assert found.move == pytest.approx(6 / 2.615, abs=0.001)
    assert found.taken == pytest.approx(4.0 + 6 / 2.615, abs=0.001)


def test_an_ear_is_never_finer_than_players_agree() -> None:
    # 2 cents, one standard deviation (R. M. Mottola, abstract); derived: 1.96 x 2/2.615 mm
    (found,) = listen(UNKNOWN, Heard(string="6", cents=6, trial="1"))
    assert found.taken_pm95 == pytest.approx(1.96 * 2 / 2.615, abs=0.002)
    often = listen(UNKNOWN, *[Heard(string="6", cents=6, trial="1")] * 9)
    assert often[0].taken_pm95 == pytest.approx(found.taken_pm95)


def test_the_trial_saddles_own_place_is_part_of_what_is_heard() -> None:
    # derived: 1.96 x hypot(2/2.615, 0.5) mm, however often it is heard
    heard = [Heard(string="6", cents=6, trial="1", against="open")] * 4
    ready = strings_as_played(msgspec.structs.replace(UNKNOWN, heard=tuple(heard)), "right", FRETS)
    (found,) = by_ear(ready, {"1": Trial(PLACES, np.full(6, 0.5))})
    assert found.taken_pm95 == pytest.approx(1.96 * np.hypot(2 / 2.615, 0.5), abs=0.002)


def test_readings_that_differ_are_averaged() -> None:
    once = listen(UNKNOWN, Heard(string="6", cents=5, trial="1"))
    both = listen(UNKNOWN, Heard(string="6", cents=2, trial="1"), Heard(string="6", cents=8, trial="1"))
    assert both[0].heard == pytest.approx(once[0].heard)


def test_hearing_just_what_is_expected_changes_nothing() -> None:
    expected = float(residual_cents(strings_as_played(STEEL, "right", FRETS), PLACES)[5, 11])
    (found,) = listen(STEEL, Heard(string="6", cents=expected, trial="1", against="open"))
    assert found.heard == pytest.approx(compensate(strings_as_played(STEEL, "right", FRETS))[5].saddle)
    assert found.taken == pytest.approx(found.worked_out)
    assert not found.disagree


def test_sharper_than_expected_sends_the_break_point_toward_the_tail() -> None:
    expected = float(residual_cents(strings_as_played(STEEL, "right", FRETS), PLACES)[5, 11])
    (found,) = listen(STEEL, Heard(string="6", cents=expected + 3, trial="1", against="open"))
    assert found.worked_out is not None
    assert found.worked_out < found.taken < found.heard


def test_ear_and_sum_are_weighed_by_their_spreads() -> None:
    (found,) = listen(STEEL, Heard(string="6", cents=3, trial="1"))
    assert found.worked_out is not None
    near, far = found.heard_pm95**-2, found.worked_out_pm95**-2
    assert found.taken == pytest.approx((near * found.heard + far * found.worked_out) / (near + far))
    assert found.taken_pm95 == pytest.approx((near + far) ** -0.5)


def test_no_finer_spread_than_two_cents_is_claimed_for_what_an_ear_had_a_part_in() -> None:
    sure = tuple(
        String(name=s.name, pitch=s.pitch, material="nylon", diameter=0.3, kg_per_m=4e-4, stretch_ratio=30)
        for s in STEEL.list
    )
    known = msgspec.structs.replace(STEEL, list=sure)
    (found,) = listen(known, Heard(string="1", cents=0, trial="1"))
    assert found.worked_out_pm95 < 0.6
    assert found.taken_pm95 == pytest.approx(found.heard_pm95 / 1.96, rel=1e-3)


def test_a_disagreement_is_named_and_widens_the_spread() -> None:
    heard = Heard(string="1", cents=20, trial="1")
    (found,) = listen(STEEL, heard)
    assert found.disagree
    assert found.worked_out is not None
    assert found.taken_pm95 == pytest.approx(max(found.heard - found.taken, found.taken - found.worked_out))
    (told,) = hearing_findings(msgspec.structs.replace(STEEL, heard=(heard,)), (found,), TRIALS)
    assert (told.grade, told.code, told.where) == ("look", "heard.disagrees", "string:1")
    assert f"by ear its compensation is {found.heard:.1f} mm" in told.text


def test_a_harmonic_is_sharper_than_the_octave_of_a_stiff_string() -> None:
    # derived: the second partial's B² term is 1.5 pi² B² more than the first's: 0.36 cents for B = 0.0037
    (by_open,) = listen(STEEL, Heard(string="6", cents=5, trial="1", against="open"))
    (by_harmonic,) = listen(STEEL, Heard(string="6", cents=5, trial="1", against="harmonic"))
    assert 0 < by_harmonic.heard - by_open.heard < 0.3


def test_other_frets_count_by_what_a_move_does_there() -> None:
    # derived: at fret 5 a move of 1 mm is 1200/ln 2 x (1/490.9 - 1/654) = 0.88 cents
    (found,) = listen(UNKNOWN, Heard(string="6", cents=2, trial="1", fret=5, against="open"))
    assert found.move == pytest.approx(2 / 0.879, abs=0.01)
    assert found.heard_pm95 > 4


def test_what_is_heard_at_two_frets_counts_by_the_squares_of_what_a_move_does_there() -> None:
    """derived: least squares of one place from two differences in cents that are heard alike: at fret n a move of 1 mm
    is 1200/ln 2 × (1 / (654 - what lies before the fret) - 1/654) cents, and the string is longer by cents over that
    """
    at, cents = {12: 325.0, 5: 650.0 * (1 - 2 ** (-5 / 12))}, {12: 6.0, 5: 1.0}
    slope = {fret: 1200 / np.log(2) * (1 / (654.0 - before) - 1 / 654.0) for fret, before in at.items()}
    heard = [Heard(string="6", cents=cents[fret], trial="1", fret=fret, against="open") for fret in at]
    (found,) = listen(UNKNOWN, *heard)
    move = sum(slope[n] * cents[n] for n in at) / sum(slope[n] ** 2 for n in at)
    assert found.heard == pytest.approx(4.0 + move)


def test_a_trial_saddle_that_was_not_measured_is_left_out_and_said() -> None:
    heard = Heard(string="6", cents=5, trial="2")
    strings = msgspec.structs.replace(STEEL, heard=(heard,))
    assert by_ear(strings_as_played(strings, "right", FRETS), TRIALS) == ()
    (told,) = hearing_findings(strings, (), TRIALS)
    assert told.code == "heard.no_trial"
    assert "trial saddle 2 is not used yet" in told.text


def test_strings_nobody_listened_to_are_left_alone() -> None:
    found = listen(STEEL, Heard(string="6", cents=5, trial="1"), Heard(string="2", cents=1, trial="1"))
    assert [one.name for one in found] == ["2", "6"]


def test_heeding_moves_the_place_and_says_by_how_much() -> None:
    best = compensate(strings_as_played(STEEL, "right", FRETS))
    heard = listen(STEEL, Heard(string="6", cents=8, trial="1"))
    found = with_what_was_heard(best, heard)
    assert found[:5] == best[:5]
    assert (found[5].saddle, found[5].source, found[5].pm95) == (heard[0].taken, "by ear", heard[0].taken_pm95)
    assert found[5].saddle - found[5].heard == pytest.approx(best[5].saddle)


def test_typed_compensation_outranks_the_ear() -> None:
    typed = msgspec.structs.replace(STEEL, compensation=(2.0,) * 6)
    best = compensate(strings_as_played(typed, "right", FRETS))
    assert with_what_was_heard(best, listen(typed, Heard(string="6", cents=8, trial="1"))) == best


def test_how_sharp_a_harmonic_is() -> None:
    """derived: partial n of a string pinned at one end and clamped at the other is n (1 + B + (1 + n² pi²/2) B²) times
    its fundamental's limp one (Anderson & Beausoleil 2024, appendix A), B = sqrt(E A / T) rho / (2 L).
    """
    ready = strings_as_played(STEEL, "right", FRETS)
    setup, nominal = ready.setup, 650.0
    b = float(np.sqrt(setup.kappa[5, 0])) * float(setup.rho[5, 0]) / (2 * nominal)
    first, second = (1 + b + (1 + n**2 * np.pi**2 / 2) * b**2 for n in (1, 2))
    cents = 1200 * np.log2(second / first)
    slope = 1200 / np.log(2) * (1 / 654.0 - 1 / (654.0 - FRETS.frets[5, 11]))
    both = [Heard(string="6", cents=5, trial="1", against=against) for against in ("open", "harmonic")]
    by_open, by_harmonic = (listen(STEEL, one)[0].heard for one in both)
    assert by_harmonic - by_open == pytest.approx(-cents / slope, rel=1e-3)
