"""What the job sheet says of all sheets before anything else."""

import re
from typing import Literal

import msgspec
import pytest

from app.file import samples
from export.drawing.marks import Text
from export.paper.work_ground import OFF_END, edge_ends
from export.records import Stamp
from export.templates import TEMPLATES, registration
from export.templates.written import first_step, work_steps
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import Unit, mm
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export.templates.test_templates import drawn


def test_the_first_step_says_of_which_file_all_sheets_must_be(job: Job, layout: Layout) -> None:
    assert work_steps.steps(job, layout, TEMPLATES, "4F2A-91")[0].endswith(
        "every template; all must be of file 4F2A-91."
    )
    assert "of file" not in work_steps.steps(job, layout, TEMPLATES)[0]


@pytest.mark.parametrize(("unit", "good"), [("mm", "0.8"), ("cm", "0.08"), ("in", "1/32")])
def test_what_is_good_beside_an_edge_distance_is_what_its_note_says(unit: Unit, good: str) -> None:
    assert registration.CLOSE[unit] == f"{good} {unit}"
    assert mm(registration.CLOSE[unit]) == pytest.approx(0.8, abs=0.01)  # 1/32 in: 25.4 / 32 = 0.79


@pytest.mark.parametrize("end", ["corners", "flush"])
@pytest.mark.parametrize("name", [path.name.removesuffix(".job.json") for path in samples.paths()])
def test_the_edge_distances_of_the_step_are_those_of_its_sheet(
    name: str, end: Literal["corners", "flush"], stamp: Stamp
) -> None:
    job = sample(name)
    job = msgspec.structs.replace(job, board=msgspec.structs.replace(job.board, end=end))
    layout = work_out(job)
    (step,) = (step for step in work_steps.steps(job, layout, TEMPLATES) if "check both edge distances" in step)
    sheet = {"glue": "placement", "strings": "bridge-place", "screws": "saddle-bases"}[job.held]
    marks = drawn(sheet, job, layout, stamp).marks
    told = [
        m.shape.text for m in marks if isinstance(m.shape, Text) and re.match(r"(bass|treble) edge \d", m.shape.text)
    ]
    treble, bass = sorted(told, reverse=True)
    start = "the board’s end" if end == "corners" else "fret 12"
    read = bass.partition(", good")[0].removesuffix(f" {job.unit}").replace("edge ", "")
    assert step.endswith(f" edge distances from {start}: {read}, {treble.replace('edge ', '')}.")


def test_where_only_the_full_length_sheet_was_printed_its_distances_are_said(stamp: Stamp) -> None:
    job, layout = sample("leaning-neck"), work_out(sample("leaning-neck"))
    marks = drawn("full-length", job, layout, stamp).marks
    words = [mark.shape.text for mark in marks if isinstance(mark.shape, Text)]
    treble, bass = sorted((text for text in words if re.match(r"(bass|treble) edge \d", text)), reverse=True)
    read = bass.partition(", good")[0].removesuffix(" mm").replace("edge ", "")
    said = f"full-length placement template as it says; check both edge distances from fret 12: {read}, "
    for printed, full in ((("full-length", "job-sheet"), True), (("full-length", "placement"), False)):
        steps = " ".join(work_steps.steps(job, layout, printed))
        assert (said + treble.replace("edge ", "") in steps) is full
        assert ("from the board’s end: " in steps) is not full


def test_where_no_edge_distance_is_known_none_is_said(job: Job, layout: Layout) -> None:
    bare = msgspec.structs.replace(layout, checks=())
    assert registration.edges_said(job, bare) == registration.edges_said(job, layout, "base") == ""
    assert registration.edges_said(job, msgspec.structs.replace(layout, neck=None)) == ""


def test_words_keep_off_the_ends_of_both_edge_lines(job: Job, layout: Layout, stamp: Stamp) -> None:
    boxes = edge_ends(drawn("placement", job, layout, stamp).marks)
    assert boxes.shape == (2, 4)
    assert (boxes[:, 2:] - boxes[:, :2]).ravel().tolist() == pytest.approx([2 * OFF_END] * 4)
    assert boxes[:, 0].min() > 600.0  # behind the bridge, whose front lies at 637


def test_titles_are_those_of_the_templates() -> None:
    for titles in (*first_step.TAPED.values(), *first_step.NEEDED.values()):
        assert titles == {name: TEMPLATES[name].title for name in titles}


def test_each_template_that_a_step_needs_is_told_where_it_was_not_printed() -> None:
    """Derived from the steps: a glued bridge with dowels and a tie block, one that stands, one of separate saddles."""
    expected = {
        ("turned-left", ("placement", "clearing", "bridge")): "",
        ("turned-left", ("full-length", "clearing")): "“Bridge”",
        ("turned-left", ("bridge",)): "“Placement template” and “Finish clearing”",
        ("five-pairs", ("placement", "clearing", "bridge")): "“Tie block” and “Saddle blank”",
        ("floating-five", ("placement",)): "“Tailpiece” and “Crown”",  # the placement template is its place
        ("floating-five", ("tailpiece", "bridge-place", "crown")): "",
        ("slanted-separate", ()): "“Saddle bases” and “Saddle bases, back”",
        ("slanted-separate", ("saddle-bases", "saddle-bases-back")): "",
    }
    for (name, printed), lacking in expected.items():
        job = sample(name)
        first = work_steps.steps(job, work_out(job), printed)[0]
        asked = f" Needed below, but not printed with this sheet: {lacking}." if lacking else ""
        assert first == f"Lay a rule on both scales of every template that was printed.{asked}", (name, printed)


def test_a_step_that_must_wait_says_so_where_it_is_ticked_off(job: Job, layout: Layout) -> None:
    """As Go or wait has it: with pin holes and slot waiting, the finish may be cleared and the bridge glued."""
    free = work_steps.steps(job, layout, TEMPLATES)
    held = work_steps.steps(job, layout, TEMPLATES, waits=("pins", "slot"))
    assert not any("Not yet" in step for step in free)
    assert [step.partition(" undersize")[0].partition(" after")[0] for step in held if "Not yet" in step] == [
        "Not yet: drill the pin holes",
        "Not yet: rout the slot",
    ]
    assert len(held) == len(free)


def test_each_work_that_waits_is_told_at_its_own_step() -> None:
    """Of saddles on a base what is drilled through waits apart from its screws; of a floating bridge its crown."""
    base = sample("slanted-separate")
    begins = {
        "screws": ["drill the screw holes"],
        "through": ["drill through from the face", "turn the body over"],
    }
    for work, told in begins.items():
        held = work_steps.steps(base, work_out(base), TEMPLATES, waits=[work])  # type: ignore[list-item]
        waiting = [step.removeprefix("Not yet: ") for step in held if step.startswith("Not yet")]
        assert [step.startswith(begin) for step, begin in zip(waiting, told, strict=True)] == [True] * len(told)
    floating = sample("floating-five")
    held = work_steps.steps(floating, work_out(floating), TEMPLATES, waits=["crown"])
    assert [step[9:28] for step in held if step.startswith("Not yet")] == ["file the crown to i", "stick the crown’s s"]


def test_where_the_glue_waits_so_does_a_slot_that_was_cut_before(job: Job, layout: Layout) -> None:
    """Go or wait has no line for such a slot; with the glue go and the saddle alone to wait, only its fitting waits."""
    for waits, told in (
        (("glue", "fit"), "Not yet: rout the slot after the glue has set if it was not cut; fit the saddle."),
        (("slot", "fit"), "Not yet: rout the slot after the glue has set if it was not cut; fit the saddle."),
        (("fit",), "Rout the slot after the glue has set if it was not cut. Not yet: fit the saddle."),
        ((), "Rout the slot after the glue has set if it was not cut; fit the saddle."),
    ):
        held = work_steps.steps(job, layout, TEMPLATES, waits=waits)  # type: ignore[arg-type]
        assert sum(step.startswith(told) for step in held) == 1, waits


def test_the_dowels_wait_with_the_glue(job: Job, layout: Layout) -> None:
    """Their holes in the top fix the place that the glue waits for."""
    for waits, begins in ((("glue",), "Not yet: fit the bridge’s underside"), ((), "Fit the bridge’s underside")):
        (step,) = (step for step in work_steps.steps(job, layout, TEMPLATES, waits=waits) if "dowels" in step)  # type: ignore[arg-type]
        assert step.startswith(begins)
