"""Pitches and fret ratios against published tables (sources in data/strings.json)."""

import pytest

from geometry.pitch import cents, frequency
from geometry.spacing import one_fraction
from tests.published.string_cases import case


@pytest.mark.parametrize("name", ["PITCH-01", "PITCH-02", "PITCH-03"])
def test_equal_tempered_frequencies(name: str) -> None:
    inputs, expected, tolerance = case(name)
    printed = {note: hertz for note, hertz in expected.items() if note != "unit" and hertz is not None}
    assert {note: frequency(note, inputs["A4_Hz"]) for note in printed} == pytest.approx(printed, abs=tolerance["Hz"])


def test_one_hertz_in_cents() -> None:
    inputs, expected, tolerance = case("PITCH-04")
    found = [cents(hertz + more, hertz) for hertz, more in inputs["pairs"]]
    assert found == pytest.approx(expected["values"], abs=tolerance["cents"])


def test_legal_tolerance_of_concert_pitch_in_cents() -> None:
    inputs, expected, tolerance = case("PITCH-05")
    found = cents(inputs["A4_Hz"] + inputs["tol_Hz"], inputs["A4_Hz"])
    assert found == pytest.approx(expected["value"], abs=tolerance["cents"])


def test_equal_tempered_divisor() -> None:
    _, expected, tolerance = case("FRET-01")
    assert 1 / one_fraction("equal", 1) == pytest.approx(expected["value"], abs=tolerance["abs"])


def test_rule_of_eighteen_in_cents_a_fret() -> None:
    inputs, expected, tolerance = case("FRET-04")
    found = cents(inputs["divisor"], inputs["divisor"] - 1)
    assert found == pytest.approx(expected["value"], abs=tolerance["cents"])


def test_first_fret_to_the_saddle() -> None:
    inputs, expected, tolerance = case("FRET-05")
    found = inputs["scale_mm"] * (1 - one_fraction("equal", inputs["fret"]))
    assert found == pytest.approx(expected["value"], abs=tolerance["mm"])
