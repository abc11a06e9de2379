"""The files of every template as other software reads them, against what it read when they were last looked at."""

from pathlib import Path as File

import msgspec
import pytest

from export import write_all
from export.records import Stamp
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export import golden_drawings, readers

DRAWN = ["placement", "full-length", "bridge", "clearing", "plate", "nut-slots"]
HARDWARE = ["headstock", "headstock-back", "side-markers", "face-markers", "nut-blank", "saddle-blank"]


@pytest.mark.parametrize("name", [*DRAWN, *HARDWARE, "job-sheet", "check-sheet"])
def test_pdf(job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str) -> None:
    (file,) = write_all(job, layout, msgspec.structs.replace(stamp, templates=(name,)), tmp_path, ("pdf",))
    assert golden_drawings.differences(f"{name}-pdf", readers.pdf_items(file)) == []


@pytest.mark.parametrize("name", [*DRAWN, *HARDWARE])
def test_dxf(job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str) -> None:
    (file,) = write_all(job, layout, msgspec.structs.replace(stamp, templates=(name,)), tmp_path, ("dxf",))
    items = [item._replace(points=item.points[:: max(1, len(item.points) // 40)]) for item in readers.dxf_items(file)]
    assert golden_drawings.differences(f"{name}-dxf", items) == []


@pytest.mark.parametrize("name", DRAWN)
def test_svg(job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str) -> None:
    (file,) = write_all(job, layout, msgspec.structs.replace(stamp, templates=(name,)), tmp_path, ("svg",))
    assert golden_drawings.differences(f"{name}-svg", readers.svg_items(file)) == []


@pytest.mark.parametrize("name", DRAWN)
def test_left_handed(left_job: Job, left_layout: Layout, stamp: Stamp, tmp_path: File, name: str) -> None:
    """What is left-handed lies on the other side, and what was measured stays where it is."""
    stamped = msgspec.structs.replace(stamp, templates=(name,))
    (file,) = write_all(left_job, left_layout, stamped, tmp_path, ("dxf",))
    items = [item._replace(points=item.points[:: max(1, len(item.points) // 40)]) for item in readers.dxf_items(file)]
    assert golden_drawings.differences(f"left-{name}-dxf", items) == []
    (file,) = write_all(left_job, left_layout, stamped, tmp_path, ("svg",))
    assert golden_drawings.differences(f"left-{name}-svg", readers.svg_items(file)) == []


@pytest.mark.parametrize("name", ["headstock", "headstock-back", "headstock-sides"])
def test_slotted_headstock(stamp: Stamp, tmp_path: File, name: str) -> None:
    """The sample job with a slotted head: its axes on face and back, and the strips for its sides."""
    job = sample("slotted-neck-screw")
    layout, stamped = work_out(job), msgspec.structs.replace(stamp, templates=(name,))
    (pdf, dxf) = write_all(job, layout, stamped, tmp_path, ("pdf", "dxf"))
    assert golden_drawings.differences(f"slotted-{name}-pdf", readers.pdf_items(pdf)) == []
    assert golden_drawings.differences(f"slotted-{name}-pdf-words", readers.pdf_phrases(pdf)) == []
    assert golden_drawings.differences(f"slotted-{name}-dxf", readers.dxf_items(dxf)) == []


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("name", ["placement", "nut-slots", *HARDWARE, "job-sheet", "check-sheet"])
def test_words(request: pytest.FixtureRequest, stamp: Stamp, tmp_path: File, hand: str, name: str) -> None:
    """Bass and treble, the numbers on the nut and all that is written, for either hand, and where it stands."""
    job, layout = _of_hand(request, hand)
    (file,) = write_all(job, layout, msgspec.structs.replace(stamp, templates=(name,)), tmp_path, ("pdf",))
    prefix = "left-" if hand == "left" else ""
    assert golden_drawings.differences(f"{prefix}{name}-pdf-words", readers.pdf_phrases(file)) == []


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("name", ["placement", "nut-slots"])
def test_words_for_machines(request: pytest.FixtureRequest, stamp: Stamp, tmp_path: File, hand: str, name: str) -> None:
    job, layout = _of_hand(request, hand)
    (file,) = write_all(job, layout, msgspec.structs.replace(stamp, templates=(name,)), tmp_path, ("dxf",))
    prefix = "left-" if hand == "left" else ""
    assert golden_drawings.differences(f"{prefix}{name}-dxf-words", readers.dxf_words(file)) == []


def _of_hand(request: pytest.FixtureRequest, hand: str) -> tuple[Job, Layout]:
    """The job and the layout for a hand."""
    prefix = "left_" if hand == "left" else ""
    return request.getfixturevalue(f"{prefix}job"), request.getfixturevalue(f"{prefix}layout")


@pytest.mark.skipif(golden_drawings.RECORD, reason="recording")
def test_the_comparison_of_words_can_fail(left_job: Job, left_layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """The other hand's words are not these: the titles, the sides, and the numbers on the nut."""
    right = msgspec.structs.replace(left_job, hand="right")
    (file,) = write_all(
        right, left_layout, msgspec.structs.replace(stamp, templates=("nut-slots",)), tmp_path, ("dxf",)
    )
    assert len(golden_drawings.differences("left-nut-slots-dxf-words", readers.dxf_words(file))) > 2


@pytest.mark.skipif(golden_drawings.RECORD, reason="recording")
@pytest.mark.parametrize(("kind", "read", "count"), [("pdf", readers.pdf_items, 2), ("svg", readers.svg_items, 1)])
def test_the_comparison_can_fail(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, kind: str, read: object, count: int
) -> None:
    """An old footprint whose corner lies 0.01 mm elsewhere is one item that differs, on paper both sides that meet
    there.
    """
    first, second, (x, y), last = layout.old.outline
    outline = (first, second, (x + 0.01, y), last)
    moved = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, outline=outline))
    (file,) = write_all(job, moved, stamp, tmp_path, (kind,))
    assert callable(read)
    assert len(golden_drawings.differences(f"placement-{kind}", read(file))) == count
