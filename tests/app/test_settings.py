"""Settings: what is remembered, and that nothing about them can stop the work."""

import sys
from pathlib import Path

import pytest

from app import settings
from app.settings import Correction, Settings, SettingsError


def test_what_is_saved_is_loaded(own_settings: Path) -> None:
    kept = Settings(window=(10, 20, 1280, 800)).with_printer("Laser upstairs", 0.994, 1.003)
    assert settings.save(kept)
    assert own_settings.is_file()
    assert settings.load() == kept


def test_a_bench_without_settings_starts_with_none() -> None:
    assert settings.load() == Settings()


@pytest.mark.parametrize("text", ["{", '{"recent": 3}', '{"printers": {"p": {"x": 2.0, "y": 1.0}}}', "\xff"])
def test_a_damaged_file_is_set_aside(text: str, own_settings: Path) -> None:
    own_settings.write_bytes(text.encode("latin-1"))
    assert settings.load() == Settings()
    assert not own_settings.exists()
    assert own_settings.with_name("settings.json.damaged").read_bytes() == text.encode("latin-1")


def test_settings_that_cannot_be_written_stop_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("OFFSQUARE_SETTINGS", str(tmp_path / "file" / "settings.json"))
    assert not settings.save(Settings())
    assert settings.load() == Settings()


@pytest.mark.parametrize(("x", "y"), [(0.949, 1.0), (1.0, 1.051), (float("nan"), 1.0)])
def test_a_correction_no_printer_needs_is_asked_about(x: float, y: float) -> None:
    with pytest.raises(SettingsError, match="was the check sheet printed at 100 %, with no fit to page"):
        Settings().with_printer("p", x, y)


def test_a_correction_at_the_limit_is_kept() -> None:
    assert Settings().with_printer("p", 0.95, 1.05).correction("p") == Correction(0.95, 1.05)


def test_a_printer_never_measured_is_not_corrected() -> None:
    assert Settings().correction("another") == Correction(1.0, 1.0)


def test_a_square_that_came_out_small_is_stretched() -> None:
    assert settings.factor(180, 179.1) == pytest.approx(1.005025, abs=1e-6)  # derived: 180 / 179.1


def test_a_square_that_measures_nothing_is_asked_about() -> None:
    with pytest.raises(SettingsError, match="read it once more"):
        settings.factor(180, 0)


def test_recent_jobs_stand_newest_first_and_once(tmp_path: Path) -> None:
    kept = Settings()
    for name in ("a", "b", "a"):
        kept = kept.with_recent(tmp_path / name)
    assert kept.recent == (str(tmp_path / "a"), str(tmp_path / "b"))


def test_only_so_many_recent_jobs_are_kept(tmp_path: Path) -> None:
    kept = Settings()
    for number in range(20):
        kept = kept.with_recent(tmp_path / str(number))
    assert len(kept.recent) == settings.RECENT
    assert kept.recent[0] == str(tmp_path / "19")


@pytest.mark.parametrize(
    ("platform", "variables", "expected"),
    [
        ("linux", {"XDG_CONFIG_HOME": "/cfg"}, "/cfg/offsquare/settings.json"),
        ("linux", {"XDG_CONFIG_HOME": "not/absolute"}, "/home/me/.config/offsquare/settings.json"),
        ("darwin", {}, "/home/me/Library/Application Support/offsquare/settings.json"),
        ("win32", {"APPDATA": "/roaming"}, "/roaming/offsquare/settings.json"),
    ],
)
def test_the_platforms_own_folder_is_used(
    platform: str, variables: dict[str, str], expected: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("OFFSQUARE_SETTINGS", "XDG_CONFIG_HOME", "APPDATA"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setattr(Path, "home", lambda: Path("/home/me"))
    assert settings.where() == Path(expected)
