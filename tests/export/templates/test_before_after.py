"""The page for the owner: read back from the PDF, and held to what was worked out."""

import datetime
from pathlib import Path

import pytest
from msgspec.structs import replace

from export.errors import ExportError
from export.paper.lay_sheets import Stamp
from export.templates import before_after, sheets
from export.templates.saddle_place import proof_table
from geometry.job import Job
from geometry.proof.moved import moved_by
from geometry.work_out import work_out
from tests.geometry.go_or_wait.test_what_if import sample
from tests.geometry.mirror_image import mirrored
from tests.geometry.proof.proof_read import read

STAMP = Stamp(date=datetime.date(2026, 11, 28), fingerprint="4F2A-91", templates=("before-and-after",))
SAMPLES = ("leaning-neck", "one-slip", "small-four", "tie-bridge", "turned-left", "turned-left-old-slot")


def words_of(job: Job) -> str:
    found = sheets(job, work_out(job), STAMP)
    texts = [mark.shape.text for page in found for mark in page.drawing.marks if hasattr(mark.shape, "text")]
    return "\n".join(texts)


def test_it_tells_the_whole_story_as_built() -> None:
    job = sample("leaning-neck")
    clamped, built = read(job), read(job, 0.6 + 0j, stage="built")
    said = words_of(replace(job, proof=(*clamped.proof, *built.proof)))
    for head in ("As it was", "As built", "Measured", "Moved by", "In tune to"):
        assert head in said.splitlines(), head
    assert "Read before the glue, 2026-11-28" in said
    assert "Read as built, 2026-11-28" in said
    assert "file the ridge 0.6 mm forward" in said


def test_before_anything_is_read_it_says_so() -> None:
    said = words_of(sample("leaning-neck"))
    assert "As it is to be" in said
    assert "not read as built yet" in said
    assert "Read before the glue" not in said


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_sample_has_it_on_two_pages_at_most(name: str, paper: str) -> None:
    job = sample(name)
    assert 1 <= len(sheets(job, work_out(job), replace(STAMP, paper=paper))) <= 2


def test_without_a_bridge_it_says_what_it_needs() -> None:
    job = replace(sample("leaning-neck"), bridge=None)
    with pytest.raises(ExportError, match="it needs the neck, the strings, the saddle and a bridge"):
        before_after.pages(job, work_out(job), STAMP)


def test_moved_by_is_from_the_old_front_to_the_new() -> None:
    """derived: the old footprint's side nearest the nut against the new corners, both as the layout has them"""
    job = sample("leaning-neck")
    layout, found = work_out(job), moved_by(job)
    assert found is not None
    assert layout.bridge is not None
    corners = [complex(*at) for at in layout.old.outline]
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    a, b = min(sides, key=lambda side: (side[0] + side[1]).real)
    new = (complex(*layout.bridge.corners[0]) + complex(*layout.bridge.corners[1])) / 2
    gone = new - (a + b) / 2
    assert (found.along, found.across) == pytest.approx((gone.real, gone.imag), abs=1e-9)
    assert 0.3 < found.along_pm95 < 3.0


def test_moved_by_mirrors() -> None:
    job = sample("leaning-neck")
    one, other = moved_by(job), moved_by(mirrored(job))
    assert one is not None
    assert other is not None
    assert (other.along, -other.across, -other.turn) == pytest.approx((one.along, one.across, one.turn), abs=1e-6)
    assert (other.along_pm95, other.turn_pm95) == pytest.approx((one.along_pm95, one.turn_pm95), abs=1e-6)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_placement_sheet_has_the_distances_with_their_bands(name: str, tmp_path: Path) -> None:
    job = sample(name)
    (table,) = proof_table(job)
    assert 4 <= len(table.rows) <= 6
    pages = sheets(job, work_out(job), replace(STAMP, templates=("placement",)))
    texts = {mark.shape.text for page in pages for mark in page.drawing.marks if hasattr(mark.shape, "text")}
    assert {cell for row in table.rows for cell in row} <= texts
    assert not list(tmp_path.iterdir())
