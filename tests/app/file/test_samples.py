"""The sample jobs: each is sound, tells its story, and can be drawn; two are wrong on purpose and say so."""

from pathlib import Path

import msgspec
import pytest

from app.cli import command_line
from app.file import job_file, samples
from export.drawing.marks import Text
from export.paper.lay_sheets import Sheet
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import mm
from geometry.work_out import work_out
from tests.export.conftest import stamp
from tests.export.sample_pages import laid, pages_of
from tests.in_one import in_one

NAMES = [
    "bolted-left",
    "five-pairs",
    "floating-five",
    "leaning-neck",
    "one-slip",
    "redrilled-left",
    "slanted-separate",
    "slotted-neck-screw",
    "small-askew",
    "small-four",
    "tie-bridge",
    "turned-left",
    "turned-left-old-slot",
]
SOUND = [name for name in NAMES if name not in ("one-slip", "turned-left-old-slot")]
SLIP = "r37"
"""The reading of `one-slip` to which 3 mm were added when the sample was made."""


def read(name: str) -> Job:
    path = samples.find(name)
    assert path is not None
    return job_file.read(path)


def worked(name: str) -> Layout:
    return laid(name)[1]


def test_all_samples_are_known() -> None:
    assert [path.name.removesuffix(".job.json") for path in samples.paths()] == NAMES


@in_one("name", NAMES)
def test_the_file_is_as_the_program_would_write_it(name: str) -> None:
    path = samples.find(name)
    assert path is not None
    assert job_file.encode(read(name)) == path.read_bytes()


@in_one("name", NAMES)
def test_the_story_is_told_in_two_sentences(name: str) -> None:
    note = read(name).note
    assert note.count(". ") == 1
    assert note.endswith(".")


@pytest.mark.parametrize("name", NAMES)
def test_no_instrument_carries_too_much_at_once(name: str) -> None:
    job, layout = read(name), worked(name)
    assert layout.frets is not None
    assert layout.neck is not None
    leaning = layout.neck.seam is not None and abs(layout.neck.seam.direction[1]) > 0.015
    traits = [job.hand == "left", layout.frets.scale < 500, leaning, job.old is not None and bool(job.old.metal)]
    traits += [job.hardware.tuners is not None, any("screw" in hole.where for hole in job.hardware.holes)]
    assert sum(traits) <= 2


@in_one("name", SOUND)
def test_the_readings_go_together(name: str) -> None:
    layout = worked(name)
    assert layout.survey.verdict == "clean", layout.survey.why.whole
    assert [finding for finding in layout.findings if finding.grade == "stop"] == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", [name for name in NAMES if name != "turned-left-old-slot"])
def test_it_exports(name: str, paper: str, tmp_path: Path) -> None:
    """Files for machines are the same whatever the paper: with one of the two."""
    kinds = ["--only", "pdf"] if paper == "Letter" else []
    assert command_line.run(["export", str(samples.find(name)), "--to", str(tmp_path), "--paper", paper, *kinds]) == 0
    assert {path.suffix for path in tmp_path.iterdir()} >= ({".pdf"} if kinds else {".pdf", ".dxf"})


def test_the_slip_is_found() -> None:
    layout = worked("one-slip")
    assert layout.survey.verdict == "misread"
    assert layout.survey.suspects == (SLIP,)


def test_without_the_slip_the_others_go_together() -> None:
    job = read("one-slip")
    kept = tuple(reading for reading in job.readings if reading.id != SLIP)
    assert work_out(Job(points=job.points, readings=kept)).survey.verdict == "clean"


def test_the_new_bridge_leans_to_the_left_players_bass() -> None:
    saddle = worked("turned-left").saddle
    assert saddle is not None
    assert saddle.longer == "bass"
    left, right = saddle.front
    assert left[0] > right[0]


def test_the_old_slot_leans_the_wrong_way() -> None:
    stops = [finding for finding in worked("turned-left-old-slot").findings if finding.grade == "stop"]
    assert [finding.code for finding in stops] == ["slot.leans"]


def test_the_old_slot_is_drawn_only_on_insistence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    argv = ["export", str(samples.find("turned-left-old-slot")), "--to", str(tmp_path / "sheets")]
    assert command_line.run(argv) == 2
    assert "nothing was written, for this would spoil the work: The slot leans the wrong way" in capsys.readouterr().err
    assert not (tmp_path / "sheets").exists()
    assert command_line.run([*argv, "--despite-stops"]) == 0
    assert (tmp_path / "sheets" / "placement.pdf").exists()


def test_the_left_handed_pair_was_read_in_64ths() -> None:
    ruled = [reading for reading in read("turned-left").readings if reading.with_ == "rule 1/64"]
    assert len(ruled) > 30
    for reading in ruled:
        for part in reading.parts:
            assert str(part).endswith(" in")
            assert mm(part) / 25.4 * 64 == pytest.approx(round(mm(part) / 25.4 * 64), abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_however_far_it_is_filled_in_it_is_worked_out(name: str) -> None:
    job = read(name)
    for taken in range(0, len(job.readings), 6):
        readings = tuple(
            reading if place < taken else msgspec.structs.replace(reading, value=None)
            for place, reading in enumerate(job.readings)
        )
        assert work_out(msgspec.structs.replace(job, readings=readings)).findings


def pages(name: str, template: str, paper: str) -> tuple[Sheet, ...]:
    return pages_of(name, msgspec.structs.replace(stamp(), paper=paper, templates=(template,)))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", NAMES)
def test_the_work_ends_on_two_pages_of_the_job_sheet(name: str, paper: str) -> None:
    """What the hands need ends with the steps; the record of the readings and the figures may take one page more."""
    found = pages(name, "job-sheet", paper)
    said = [{mark.shape.text for mark in page.drawing.marks if isinstance(mark.shape, Text)} for page in found]
    last = max(at for at, words in enumerate(said, 1) if "The work, in order" in words)
    assert last <= 2
    assert len(found) <= (4 if len(read(name).readings) > 80 else 3)  # a hundred readings fill a page by themselves


def test_a_bridge_just_as_wide_as_the_paper_is_one_sheet_and_speaks_of_no_other() -> None:
    """The tie bridge is 188 mm long; with its sizes beside it only a sheet without the larger title block holds it."""
    (sheet,) = pages("tie-bridge", "bridge", "A4")
    said = " ".join(mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text))
    assert sheet.name == "bridge"
    assert "sheet 1 of 1" in said
    assert "crosses" not in said
    assert "A1" not in said
