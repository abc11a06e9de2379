"""Pitches as typed."""

from contextlib import nullcontext

import pytest

from geometry.pitch import NotAPitch, cents, frequency
from tests.in_one import in_one


@in_one(
    ("name", "hertz"),
    # derived: 440 x 2^(steps/12), steps counted from A4
    [
        ("A4", 440.0),
        ("a4", 440.0),
        (" A4 ", 440.0),
        ("A3", 220.0),
        ("B4", 440 * 2 ** (2 / 12)),
        ("C5", 440 * 2 ** (3 / 12)),
        ("F#3", 440 * 2 ** (-15 / 12)),
        ("F♯3", 440 * 2 ** (-15 / 12)),
        ("Gb3", 440 * 2 ** (-15 / 12)),
        ("B♭2", 440 * 2 ** (-23 / 12)),
        ("220.5 Hz", 220.5),
        ("220,5hz", 220.5),
    ],
)
def test_a_pitch_is_read(name: str, hertz: float) -> None:
    assert frequency(name, 440) == pytest.approx(hertz, rel=1e-12)


def test_the_reference_moves_all_notes_alike() -> None:
    assert frequency("E4", 415) / frequency("E4", 440) == pytest.approx(415 / 440, rel=1e-12)


def test_hertz_do_not_follow_the_reference() -> None:
    assert frequency("200 Hz", 415) == 200.0


@pytest.mark.parametrize("name", ["", "E", "H4", "4", "E44", "Cbb4", "E4 sharp", "-3 Hz", "E 4 5"])
def test_what_is_no_pitch_is_refused(name: str) -> None:
    with pytest.raises(NotAPitch, match="is not a pitch; write a note with its octave"):
        frequency(name, 440)


@pytest.mark.parametrize("name", ["C-1", "E9", "3 Hz", "9000 Hz"])
def test_what_no_string_is_tuned_to_is_refused(name: str) -> None:
    with pytest.raises(NotAPitch, match="which no string is tuned to"):
        frequency(name, 440)


@pytest.mark.parametrize(("hertz", "refused"), [(14.5, True), (15.5, False), (2150, False), (2250, True)])
def test_from_which_pitch_on_a_string_is_tuned(hertz: float, refused: bool) -> None:
    """From 15 to 2200 Hz (common practice, no source)."""
    with pytest.raises(NotAPitch, match="which no string is tuned to") if refused else nullcontext():
        assert frequency(f"{hertz} Hz", 440) == hertz


def test_a_pitch_that_is_good_stays_good_at_any_reference() -> None:
    assert frequency("C0", 300) == pytest.approx(300 * 2 ** (-57 / 12))


def test_cents_of_an_octave_and_of_a_lower_note() -> None:
    assert cents(880, 440) == pytest.approx(1200)
    assert cents(440, 880) == pytest.approx(-1200)
