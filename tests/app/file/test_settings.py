"""Settings: what is remembered, and that nothing about them can stop the work."""

import json
import subprocess
import sys
from pathlib import Path

import msgspec
import pytest

from app.file import settings
from app.file.settings import Settings, SettingsError
from export import USUAL_KINDS
from export.correction import NONE, CheckSheet


def test_what_is_saved_is_loaded(own_settings: Path) -> None:
    kept = Settings(window=(10, 20, 1280, 800)).with_printer("Laser upstairs", CheckSheet(across=181.09, up=179.46))
    assert settings.save(kept)
    assert own_settings.is_file()
    assert settings.load() == kept


def test_a_bench_without_settings_starts_with_none() -> None:
    assert settings.load() == Settings()


@pytest.mark.parametrize("text", ["{", "[1]", "\xff", "[" * 100_000])
def test_a_damaged_file_is_set_aside_and_told_of(text: str, own_settings: Path) -> None:
    own_settings.write_bytes(text.encode("latin-1"))
    told: list[str] = []
    assert settings.load(told.append) == Settings()
    assert len(told) == 1
    assert "settings.json.damaged holds what was there" in told[0]
    assert not own_settings.exists()
    assert own_settings.with_name("settings.json.damaged").read_bytes() == text.encode("latin-1")


def test_settings_that_cannot_be_written_stop_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("OFFSQUARE_SETTINGS", str(tmp_path / "file" / "settings.json"))
    assert not settings.save(Settings())
    assert settings.load() == Settings()


@pytest.mark.parametrize(("across", "up"), [(176.3, 180.0), (180.0, 183.7), (float("nan"), 180.0), (0.0, 180.0)])
def test_a_correction_no_printer_needs_is_asked_about(across: float, up: float) -> None:
    with pytest.raises(SettingsError, match="was the check sheet printed at 100 %, with no fit to page"):
        Settings().with_printer("p", CheckSheet(across=across, up=up))


def test_a_correction_at_the_limit_is_kept() -> None:
    read = CheckSheet(across=176.4, up=183.6)  # 2 % of 180 mm
    found = Settings().with_printer("p", read).correction("p")
    assert (found.short, found.long) == pytest.approx((1 / 0.98, 1 / 1.02))


def test_a_printer_can_be_forgotten() -> None:
    kept = Settings().with_printer("Laser", CheckSheet(across=179.2)).with_printer("Ink", CheckSheet(up=180.4))
    assert settings.save(kept)
    assert settings.save(kept.without_printer("Laser"), kept)
    assert list(settings.load().printers) == ["Ink"]


def test_factors_of_an_older_file_are_kept_as_what_was_read(own_settings: Path) -> None:
    own_settings.write_text('{"printers": {"Laser": {"x": 0.994, "y": 1.003}}}')
    assert settings.load().printers["Laser"] == CheckSheet(across=181.09, up=179.46)  # derived: 180 / factor


def test_a_printer_never_measured_is_not_corrected() -> None:
    assert Settings().correction("another") == NONE


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


GOOD = '"printers": {"Laser": {"x": 0.994, "y": 1.003}}'
LASER = Settings().with_printer("Laser", CheckSheet(across=181.09, up=179.46))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            '"theme": "sepia"',
            "The setting “theme” is not understood; the usual one is used until you choose another.",
        ),
        ('"recent": 3', "The setting “recent” is not understood; the usual one is used until you choose another."),
        (
            '"text": "large"',
            "The setting “text” is not understood; the usual one is used until you choose another.",
        ),
        ('"from a newer program": 1', None),
    ],
)
def test_what_is_understood_is_kept_and_the_rest_said_and_left(text: str, told: str | None, own_settings: Path) -> None:
    own_settings.write_text(f"{{{GOOD}, {text}}}")
    heard: list[str] = []
    kept = settings.load(heard.append)
    assert kept == LASER
    assert heard == ([told] if told else [])
    assert settings.save(kept.with_printer("Ink", CheckSheet(across=179.82, up=180.0)), kept)
    there = json.loads(own_settings.read_text())
    assert there == json.loads(f"{{{GOOD}, {text}}}") | {
        "printers": {"Laser": {"x": 0.994, "y": 1.003}, "Ink": {"across": 179.82, "up": 180.0}}
    }


def test_one_printer_that_is_not_understood_costs_no_other(own_settings: Path) -> None:
    own_settings.write_text('{"printers": {"Laser": {"x": 0.994, "y": 1.003}, "p": {"x": 2.0, "y": 1.0}}}')
    heard: list[str] = []
    assert settings.load(heard.append) == LASER
    assert heard == ["The correction of the printer “p” is not understood: print its check sheet and read it again."]


def test_two_windows_lose_none_of_each_others_settings() -> None:
    start = Settings()
    one = start.with_printer("Laser", CheckSheet(across=181.09, up=179.46)).with_recent(Path("/jobs/one"))
    other = msgspec.structs.replace(
        start.with_printer("Ink", CheckSheet(across=179.82, up=180.0)), theme="dark"
    ).with_recent(Path("/jobs/other"))
    assert settings.save(one, start)
    assert settings.save(other, start)
    there = settings.load()
    assert set(there.printers) == {"Laser", "Ink"}
    assert there.theme == "dark"
    assert there.recent == ("/jobs/other", "/jobs/one")


def test_many_programs_at_once_lose_no_printer() -> None:
    script = (
        "import sys; from app.file import settings; from export.correction import CheckSheet\n"
        "for n in range(20):\n"
        "    read = CheckSheet(across=178.22)\n"
        "    there = settings.load(); assert settings.save(there.with_printer(f'{sys.argv[1]} {n}', read), there)"
    )
    programs = [subprocess.Popen([sys.executable, "-c", script, name]) for name in "abc"]
    assert [program.wait() for program in programs] == [0, 0, 0]
    assert len(settings.load().printers) == 60


def test_a_lock_that_another_keeps_stops_nothing(own_settings: Path) -> None:
    from export import files

    with files.locked(own_settings), pytest.raises(TimeoutError), files.locked(own_settings, patience=0.05):
        raise AssertionError("both hold it")


@pytest.mark.parametrize(
    ("text", "text_scale", "window"),
    [
        ('{"text": 1000, "window": [0, 0, 2147483648, 700]}', 2.0, None),
        ('{"text": 0.01, "window": [0, 0, 0, 0]}', 1.0, None),
        ('{"text": -3, "window": [10, 20, 1280, 800]}', 0.0, (10, 20, 1280, 800)),
        ('{"files": []}', 0.0, None),
    ],
)
def test_what_makes_no_usable_window_is_put_right(
    text: str, text_scale: float, window: tuple[int, int, int, int] | None, own_settings: Path
) -> None:
    own_settings.write_text(text)
    kept = settings.load()
    assert (kept.text, kept.window, kept.files) == (text_scale, window, USUAL_KINDS)
