"""Kept placements on the plan and on the job sheet.

derived: the sample's bridge is 154 mm long; one of 140 mm ends 7 mm nearer to the middle at either wing.
"""

import math

import msgspec
import pytest

from app.edit.bridge import bridge_entries, kept_places
from export.drawing.marks import Circle, Drawing, Line, Mark, Path, Text
from export.drawing.pens import PENS
from export.plan import USUAL_OVERLAYS, PlanView, compose
from export.records import Stamp
from export.templates import sheets
from geometry.job import Job
from geometry.layout import Layout
from geometry.placed import kept_told
from geometry.work_out import work_out
from tests.app.desk.conftest import sample

NEAR = PlanView(scale=0.6)


@pytest.fixture(scope="module")
def kept() -> Job:
    """A job whose bridge was made shorter since it was kept."""
    job = sample("leaning-neck")
    made = kept_places.keep(job, work_out(job), "2026-03-14")
    made = kept_places.rename(made, "Placement 1", "As it was")
    return bridge_entries.put(made, "bridge", length=140.0)


@pytest.fixture(scope="module")
def now(kept: Job) -> Layout:
    return work_out(kept)


def ghosts(drawing: Drawing) -> list[Mark]:
    return [mark for mark in drawing.marks if mark.purpose == "kept"]


def test_the_ghost_lies_where_the_bridge_lay(kept: Job, now: Layout) -> None:
    before = work_out(msgspec.structs.replace(kept, bridge=kept.kept[0].bridge))
    assert before.bridge is not None
    assert before.saddle is not None
    drawn = ghosts(compose(kept, now, NEAR))
    assert {mark.of for mark in drawn} == {"kept:As it was"}
    paths = [mark.shape for mark in drawn if isinstance(mark.shape, Path)]
    slot, outline = sorted(paths, key=lambda path: len(path.vertices))
    assert [v[:2] for v in slot.vertices] == [pytest.approx(at, abs=1e-3) for at in before.saddle.slot]
    assert [v for v in outline.vertices] == [pytest.approx(v, abs=1e-3) for v in before.bridge.outline]
    holes = [mark.shape for mark in drawn if isinstance(mark.shape, Circle)]
    assert [hole.centre for hole in holes] == [pytest.approx(pin.at, abs=1e-3) for pin in before.bridge.pins]
    assert {hole.radius * 2 for hole in holes} == {before.bridge.pins[0].diameter}


def test_it_wears_its_name_its_day_and_lines_of_its_own(kept: Job, now: Layout) -> None:
    texts = [mark.shape.text for mark in compose(kept, now, NEAR).marks if isinstance(mark.shape, Text)]
    assert "As it was, 2026-03-14" in texts
    others = [pen.dashes for purpose, pen in PENS.items() if purpose != "kept"]
    assert PENS["kept"].dashes not in others
    assert PENS["kept"].width == PENS["lay"].width


def test_several_are_told_apart_by_letters_on_the_plan_in_the_list_and_on_paper(
    kept: Job, now: Layout, stamp: Stamp
) -> None:
    both = kept_places.keep(kept, now, "2026-03-15")
    shown = compose(both, work_out(both), NEAR).marks
    ghosts_named = {mark.of: mark.shape.text for mark in shown if isinstance(mark.shape, Text) and "kept:" in mark.of}
    assert ghosts_named == {"kept:As it was": "A", "kept:Placement 2": "B"}
    listed = [kept_told.heading(both, one) for one in both.kept]
    assert listed == ["A: As it was, kept 2026-03-14", "B: Placement 2, kept 2026-03-15"]
    pages = sheets(both, now, msgspec.structs.replace(stamp, templates=("job-sheet",)))
    said = [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]
    assert "Beside the placement A: “As it was”, kept 2026-03-14. Lengths in mm" in said


def test_none_is_drawn_where_they_are_hidden_or_none_is_kept(kept: Job, now: Layout) -> None:
    hidden = msgspec.structs.replace(NEAR, overlays=USUAL_OVERLAYS - {"placements"})
    assert ghosts(compose(kept, now, hidden)) == []
    assert ghosts(compose(msgspec.structs.replace(kept, kept=()), now, NEAR)) == []


def test_seen_from_afar_it_has_no_holes(kept: Job, now: Layout) -> None:
    drawn = ghosts(compose(kept, now, PlanView(scale=0.2)))
    assert drawn
    assert not any(isinstance(mark.shape, Circle) for mark in drawn)


def test_without_a_bridge_only_its_slot_is_there() -> None:
    job = msgspec.structs.replace(sample("leaning-neck"), bridge=None)
    layout = work_out(job)
    made = kept_places.keep(job, layout, "")
    (mark,) = ghosts(compose(made, layout, NEAR))
    assert isinstance(mark.shape, Path)
    a, b = mark.shape.vertices[:2]
    assert layout.saddle is not None
    assert math.dist(a[:2], b[:2]) == pytest.approx(math.dist(*layout.saddle.front), abs=1e-3)


def test_the_job_sheet_prints_the_comparison(kept: Job, now: Layout, stamp: Stamp) -> None:
    pages = sheets(kept, now, msgspec.structs.replace(stamp, templates=("job-sheet",)))
    said = [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]
    at = said.index("Beside the placement “As it was”, kept 2026-03-14. Lengths in mm")
    assert said[at : at + 4][1:] == ["kept", "now", "difference"]
    assert said[said.index("Bridge, front bass corner") + 1] == "7.0 mm to treble"
    bare = sheets(msgspec.structs.replace(kept, kept=()), now, msgspec.structs.replace(stamp, templates=("job-sheet",)))
    assert not any("Beside" in m.shape.text for p in bare for m in p.drawing.marks if isinstance(m.shape, Text))


def leaders(drawing: Drawing) -> list[Line]:
    ghosts_lines = (mark.shape for mark in drawing.marks if mark.of.startswith("kept:") and mark.purpose == "dimension")
    return [shape for shape in ghosts_lines if isinstance(shape, Line)]


def test_looked_at_closely_a_line_leads_from_its_corner_to_its_name(kept: Job, now: Layout) -> None:
    """It would hang beside the present one otherwise, which lies nearly where it lay."""
    closely = msgspec.structs.replace(NEAR, close_up=True)
    (line,) = leaders(compose(kept, now, closely))
    outline = max((m.shape for m in ghosts(compose(kept, now, closely)) if isinstance(m.shape, Path)), key=_corners)
    assert min(math.dist(line.a, v[:2]) for v in outline.vertices) < 1e-3
    assert not leaders(compose(kept, now, NEAR))


def _corners(path: Path) -> int:
    return len(path.vertices)


def test_on_paper_one_that_is_as_the_present_one_is_left_out(stamp: Stamp) -> None:
    """Its lines would lie under the present one's, and its name would be led across the picture for nothing."""
    job = sample("leaning-neck")
    layout = work_out(job)
    same = kept_places.keep(job, layout, "2026-03-14")
    paper = msgspec.structs.replace(NEAR, on_paper=True)
    assert ghosts(compose(same, layout, NEAR))
    drawn = compose(same, layout, paper)
    assert not [mark for mark in drawn.marks if mark.of.startswith("kept:")]
    shorter = bridge_entries.put(same, "bridge", length=140.0)
    assert ghosts(compose(shorter, work_out(shorter), paper))
    pages = sheets(same, layout, msgspec.structs.replace(stamp, templates=("job-sheet",)))
    said = [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]
    assert not any("Placement 1" in words for words in said)


def test_on_paper_one_of_another_outline_is_drawn_wherever_it_lies() -> None:
    job = sample("leaning-neck")
    layout = work_out(job)
    same = kept_places.keep(job, layout, "2026-03-14")
    bridge = same.kept[0].bridge
    assert bridge is not None
    other = msgspec.structs.replace(bridge, outline="pyramid")
    assert bridge.outline != "pyramid"
    reshaped = msgspec.structs.replace(same, kept=(msgspec.structs.replace(same.kept[0], bridge=other),))
    assert ghosts(compose(reshaped, layout, msgspec.structs.replace(NEAR, on_paper=True)))
