"""Fret spacings against published figures and hand-derived ones."""

import pytest

from geometry.spacing import fraction, out_of_tune, saddle_fraction


def test_the_equal_tempered_divisor_is_17_817() -> None:
    # Byers, American Lutherie 47 (1996), as summarised by its author: divisor 17.817
    assert 1 / float(fraction("equal", 1)) == pytest.approx(17.817, abs=0.0005)


def test_the_first_fret_of_650_leaves_614() -> None:
    # Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024), sect. II: about 614 mm from the saddle
    assert 650 * (1 - float(fraction("equal", 1))) == pytest.approx(614, abs=0.5)


def test_a_step_of_the_rule_of_eighteen_is_98_955_cents() -> None:
    # rule attributed to V. Galilei; 1200 log2(18/17) = 98.955 computed
    assert 100 + out_of_tune("eighteen", 1.0, 1)[0] == pytest.approx(98.955, abs=0.001)


def test_the_rule_of_eighteen_sets_fret_12_and_the_octave_place() -> None:
    # derived: scale 632, fret 12 at 313.70, twice that is 627.40
    assert 632 * float(fraction("eighteen", 12)) == pytest.approx(313.70, abs=0.005)
    assert 632 * saddle_fraction("eighteen", "octave", 12) == pytest.approx(627.40, abs=0.005)


def test_what_the_rule_of_eighteen_costs_at_the_octave_place() -> None:
    # derived: frets 1, 6, 12 at −0.30, −1.08, 0.00 cents; at the full scale fret 12 is at −12.54
    cents = out_of_tune("eighteen", saddle_fraction("eighteen", "octave", 12), 12)
    assert (cents[0], cents[5], cents[11]) == pytest.approx((-0.30, -1.08, 0.0), abs=0.005)
    assert out_of_tune("eighteen", 1.0, 12)[11] == pytest.approx(-12.54, abs=0.005)


def test_the_best_place_costs_less_than_the_octave_place_and_than_its_neighbours() -> None:
    best = saddle_fraction("eighteen", "best", 19)

    def cost(place: float) -> float:
        return float((out_of_tune("eighteen", place, 19) ** 2).sum())

    assert cost(best) < cost(saddle_fraction("eighteen", "octave", 19))
    assert cost(best) < min(cost(best - 1e-4), cost(best + 1e-4))


def test_for_equal_temperament_octave_and_best_are_one() -> None:
    assert saddle_fraction("equal", "octave", 20) == saddle_fraction("equal", "best", 20) == pytest.approx(1.0)
