"""What a killed program left is swept at the next start, wherever this bench's files go."""

from pathlib import Path

from app.file import leftovers, settings
from app.file.settings import Settings
from export import files


def test_what_was_left_beside_settings_jobs_and_sheets_is_swept(tmp_path: Path) -> None:
    own = settings.where().parent
    places = (own, own / "recovery", tmp_path, tmp_path / "old parlour sheets")
    name = f".offsquare-{files._machine()}-{2**31 - 1}-00000000.tmp"  # no process has this number
    for place in places:
        place.mkdir(parents=True, exist_ok=True)
        (place / name).write_text("half")
    (tmp_path / "old parlour.job.json").write_text("{}")
    leftovers.begin(Settings(recent=(str(tmp_path / "old parlour.job.json"),))).join()
    assert [place for place in places if (place / name).exists()] == []
    assert (tmp_path / "old parlour.job.json").exists()
