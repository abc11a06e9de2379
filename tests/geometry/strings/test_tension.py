"""How hard the strings pull, and what is said of it."""

import numpy as np
import pytest

from geometry.findings import Finding
from geometry.job import String, Strings
from geometry.strings.stretch import Array
from geometry.strings.tension import tension_findings, tensions
from geometry.strings.usual_sets import SETS

LENGTHS = np.full(6, 648.0)


def told(strings: Strings, lengths: Array = LENGTHS) -> dict[str, Finding]:
    return {finding.code: finding for finding in tension_findings(strings, lengths)}


def test_a_light_set_pulls_about_seventy_kilograms() -> None:
    # common practice, from memory: light steel on a 648 mm scale pulls 155-170 lb
    total = float(tensions(SETS["steel 12-54"].strings, 440, LENGTHS).sum())
    assert 155 < total / 4.448 < 170


def test_tension_goes_with_the_square_of_pitch_and_length() -> None:
    string = (String(name="1", pitch="E4", diameter="0.012 in"),)
    once = tensions(string, 440, np.array([600.0]))
    assert tensions(string, 220, np.array([600.0])) == pytest.approx(once / 4)
    assert tensions(string, 440, np.array([300.0])) == pytest.approx(once / 4)


def test_the_total_is_told_in_newtons_kilograms_and_pounds() -> None:
    found = told(Strings(list=SETS["steel 12-54"].strings))
    assert set(found) == {"strings.total"}
    assert found["strings.total"].text == "Together the strings pull 704 N ±8 % (72 kg, 158 lb)."


@pytest.mark.parametrize(
    ("now", "before", "grade", "code"),
    [
        ("steel 12-54", "nylon 0.70-1.10", "stop", "strings.much_heavier"),
        ("steel 13-58", "steel 12-54", "look", "strings.heavier"),
        ("steel 12-54", "steel 12-54", "good", "strings.total"),
        ("silk and steel 11-46", "steel 12-54", "look", "strings.lighter"),
    ],
)
def test_a_set_against_the_one_it_replaces(now: str, before: str, grade: str, code: str) -> None:
    found = told(Strings(list=SETS[now].strings, replaces=SETS[before].strings))
    assert found[code].grade == grade
    assert "the set they replace" in found[code].text


def test_sets_of_different_numbers_are_compared_over_one_length() -> None:
    found = told(
        Strings(list=SETS["steel twelve 10-46"].strings, replaces=SETS["steel 12-54"].strings), np.full(12, 648.0)
    )
    # derived: 978 N against 704 N
    assert found["strings.heavier"].values["ratio"] == pytest.approx(1.39, abs=0.01)


def test_strings_of_unknown_make_are_named_and_no_total_is_claimed() -> None:
    strings = Strings(list=(String(name="1", pitch="E4", diameter=0.3), String(name="2"), String(name="3", pitch="G3")))
    found = told(strings, np.full(3, 648.0))
    assert set(found) == {"strings.unknown"}
    assert "strings 2 and 3" in found["strings.unknown"].text


def test_a_plain_string_that_would_break() -> None:
    found = told(Strings(list=(String(name="1", pitch="B4", diameter="0.010 in"),)), np.array([648.0]))
    assert found["strings.break"].grade == "stop"
    assert found["strings.break"].text.startswith("String 1 would break: at B4 it is stressed to")
    assert found["strings.break"].where == "string:1"


def test_a_plain_string_beyond_its_elastic_limit() -> None:
    # derived: 7850 (2 x 0.648 x 400)² = 2110 N/mm², 0.79 of the 387 ksi of 0.010 in
    found = told(Strings(list=(String(name="1", pitch="400 Hz", diameter="0.010 in"),)), np.array([648.0]))
    assert found["strings.near_break"].grade == "look"
    assert found["strings.near_break"].values["part"] == pytest.approx(0.79, abs=0.005)


def test_a_core_that_is_only_guessed_cannot_stop_the_work() -> None:
    thin = {"name": "6", "build": "wound", "pitch": "E3", "diameter": "0.053 in"}
    guessed = String(**thin)  # type: ignore[arg-type]  # the fields of String
    given = String(**thin, core="0.018 in")  # type: ignore[arg-type]  # as above
    one = np.array([648.0])
    assert told(Strings(list=(guessed,)), one)["strings.break"].grade == "look"
    assert told(Strings(list=(given,)), one)["strings.break"].grade == "stop"


def test_a_pull_no_string_has_points_at_diameter_or_pitch() -> None:
    slack = String(name="1", pitch="E2", diameter="0.010 in")
    assert told(Strings(list=(slack,)), np.array([648.0]))["strings.pull"].grade == "look"


def test_strings_that_pull_too_little_are_told_together() -> None:
    """derived: alike but for their pitch, a fourth of five semitones is 2^(10/12) in pull; common practice, no source:
    15 to 250 N
    """
    pairs = tuple(
        String(name=f"{course}{one}", course=course, pitch=pitch, diameter="0.010 in")
        for course, pitch in ((1, "E2"), (2, "E4"), (3, "A2"))
        for one in "ab"
    )
    found = [one for one in tension_findings(Strings(list=pairs), np.full(6, 648.0)) if one.code == "strings.pull"]
    (pull,) = found
    low, high = (
        tensions((String(name="x", pitch=p, diameter="0.010 in"),), 440, np.array([648.0]))[0] for p in ("E2", "A2")
    )
    assert low * 2 ** (10 / 12) == pytest.approx(high)
    who = "Strings 1a, 1b, 3a and 3b"
    pulls = f"{low - 0.05:.1f} to {high - 0.05:.1f} N"  # rounded down: none reads as the bound that it is under
    wanted = f"{who} would pull {pulls}, and few pull under 15 N: look at their diameters and pitches."
    assert pull.text == wanted


def test_the_pull_of_fluorocarbon_is_known_to_a_fifth() -> None:
    # its density from memory makes it pull 4 to 15 % too hard beside printed tensions; derived: 1.96 x 10 % plain,
    # 1.96 x 6 % wound
    found = told(Strings(list=SETS["fluorocarbon 0.55-1.10"].strings))["strings.total"]
    share = found.values["pm95"] / found.values["total_n"]
    assert 1.96 * 0.06 < share < 1.96 * 0.1
    trebles = Strings(list=SETS["fluorocarbon 0.55-1.10"].strings[:3])
    (plain,) = tension_findings(trebles, np.full(3, 648.0))
    assert plain.values["pm95"] / plain.values["total_n"] == pytest.approx(0.196, abs=0.001)
