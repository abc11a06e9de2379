"""Slots of a saddle of several pieces, steps and tie blocks on sheets and in files, read back by other software."""

import datetime
import math
import re
from pathlib import Path as File
from typing import Literal

import msgspec
import pytest

from app.file import job_file, samples
from export import write_all
from export.records import Stamp
from export.templates import TEMPLATES
from export.templates.glued.dowels import dowels
from export.templates.written import job_tables, work_steps
from geometry.job import Job, TieBlock
from geometry.job.seating import Made
from geometry.layout import XY, Layout
from geometry.work_out import work_out
from tests.export import readers

STAMP = Stamp(date=datetime.date(2026, 1, 2), fingerprint="0000-00")
ROW = re.compile(r"^\d+ (.+?): X (-?[\d.]+) Y (-?[\d.]+), ")
HALF = 0.005 + 1e-6
"""Half of the last decimal that a table gives, mm."""


def sample(name: str) -> Job:
    path = samples.find(name)
    assert path is not None
    return job_file.read(path)


def split(made: Made) -> tuple[Job, Layout]:
    job = sample("leaning-neck")
    assert job.saddle is not None
    job = msgspec.structs.replace(job, saddle=msgspec.structs.replace(job.saddle, made=made))
    return job, work_out(job)


def tied(**fields: object) -> tuple[Job, Layout]:
    job = sample("five-pairs")
    assert job.bridge is not None
    assert job.bridge.tie is not None
    tie = msgspec.structs.replace(job.bridge.tie, **fields)
    job = msgspec.structs.replace(job, bridge=msgspec.structs.replace(job.bridge, tie=tie))
    return job, work_out(job)


def written(job: Job, layout: Layout, folder: File, name: str, kind: str) -> File:
    (file,) = write_all(job, layout, msgspec.structs.replace(STAMP, templates=(name,)), folder, (kind,))
    return file


def datum(file: File) -> XY:
    (note,) = [text for text in readers.dxf_texts(file) if text.startswith("Units mm. Datum: ")]
    x, y = re.findall(r"[XY] (-?[\d.]+)", note.removesuffix("."))
    return float(x), float(y)


def listed(file: File) -> dict[str, XY]:
    found = (ROW.match(text) for text in readers.dxf_texts(file))
    return {match[1]: (float(match[2]), float(match[3])) for match in found if match}


@pytest.mark.parametrize(("made", "count"), [("one", 1), ("steps", 1), ("two", 2), ("three", 3), ("each", 6)])
def test_the_dxf_has_a_slot_to_route_for_each_piece(made: Made, count: int, tmp_path: File) -> None:
    job, layout = split(made)
    assert layout.saddle is not None
    assert layout.bridge is not None
    for name in ("bridge", "placement"):
        file = written(job, layout, tmp_path / name, name, "dxf")
        rings = [item.points for item in readers.dxf_items(file) if item.where == "ROUTE" and item.closed]
        if name == "placement" and not rings:  # a template is cut, not what it shows
            continue
        assert len(rings) == count
        # sizes and shapes: the sides of each ring are those of its slot
        sides = sorted(
            sorted(math.dist(a, b) for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)) for ring in rings
        )
        own = sorted(
            sorted(math.dist(a, b) for a, b in zip(slot, [*slot[1:], slot[0]], strict=True))
            for slot in layout.saddle.slots
        )
        for found, wanted in zip(sides, own, strict=True):
            assert [one for one in found if one > 0.01] == pytest.approx(wanted, abs=0.002)


@pytest.mark.parametrize("made", ["two", "three", "each"])
def test_each_slot_is_listed_by_its_two_ends_where_it_lies(made: Made, tmp_path: File) -> None:
    job, layout = split(made)
    assert layout.saddle is not None
    file = written(job, layout, tmp_path, "bridge", "dxf")
    rows, (x0, y0) = listed(file), datum(file)
    assert sum(name.startswith("slot ") for name in rows) == 2 * len(layout.saddle.slots)
    rings = [item.points for item in readers.dxf_items(file) if item.where == "ROUTE"]
    ends = [
        ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        for ring in rings
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)
        if 0.01 < math.dist(a, b) < 4.0  # the samples' saddles are 3 mm thick
    ]
    for name, (x, y) in rows.items():
        if name.startswith("slot "):
            assert readers.nearest(ends, (x0 + x, y0 + y)) < 2 * HALF


def test_dowels_stand_in_the_outermost_slots() -> None:
    _, layout = split("two")
    assert layout.saddle is not None
    for dowel, slot in zip(dowels(layout, "mm"), layout.saddle.slots, strict=True):  # the treble is at the left
        (lx, ly), (rx, ry) = slot[0], slot[1]
        along = complex(lx - rx, ly - ry) / math.dist(slot[0], slot[1])
        own = (complex(*dowel.at) - complex(rx, ry)) * along.conjugate()
        assert 0 < own.real < math.dist(slot[0], slot[1])
        assert -3.0 < own.imag < 0 or 0 < own.imag < 3.0


def test_the_pdf_says_that_each_slot_has_its_own_slant(tmp_path: File) -> None:
    said = " ".join(readers.pdf_words(written(*split("two"), tmp_path, "bridge", "pdf")).split())
    assert "Each slot has its own slant and its own number" in said
    assert "slot 2 to the neck" in said
    plain = " ".join(readers.pdf_words(written(*split("one"), tmp_path / "one", "bridge", "pdf")).split())
    assert "its own number" not in plain


def test_the_steps_are_listed_and_the_work_names_them() -> None:
    job, layout = tied()
    work = " ".join(work_steps.steps(job, layout, TEMPLATES))
    assert "fit the saddle." in work
    assert work.count("file its steps") == 1, "once, with the saddle's own sheet"
    assert "Shape the saddle by its blank’s sheet, a little high; file its steps, and peak it under each string" in work
    waits = " ".join(work_steps.steps(job, layout, TEMPLATES, waits=("slot", "fit")))
    assert "a little high. Not yet: file its steps, and peak it under each string" in waits
    without = " ".join(work_steps.steps(job, msgspec.structs.replace(layout, saddle_blank=None), TEMPLATES))
    assert "fit the saddle and file its steps." in without
    assert "Drill the 10 tie holes through the block by the tie-block template" in work
    assert "pin hole" not in work
    assert "Rout the 3 slots after the glue has set" in " ".join(work_steps.steps(*split("three"), TEMPLATES))


@pytest.mark.parametrize("holes", [1, 2])
def test_the_tie_holes_are_drilled_in_the_back_face(holes: int, tmp_path: File) -> None:
    """Seen from behind: X runs to the instrument's left from the bridge's middle, Y up from its bottom."""
    job, layout = tied(holes=holes, below=1.0, spacing=1.7, diameter=0.8)
    assert layout.bridge is not None
    assert layout.bridge.tie is not None
    file = written(job, layout, tmp_path, "tie-block", "dxf")
    x0, y0 = datum(file)
    drilled = [
        (float(codes[10]) - x0, float(codes[20]) - y0, 2 * float(codes[40]))
        for kind, codes in readers.dxf_entities(file)
        if kind == "CIRCLE" and codes[8] == "DRILL"
    ]
    assert len(drilled) == 10 * holes
    front, turn = complex(*layout.bridge.corners[0]), layout.bridge.turn
    half = abs(front - complex(*layout.bridge.corners[1])) / 2
    for hole in layout.bridge.tie.holes:
        own = (complex(*hole.back) - front) * complex(math.cos(turn), -math.sin(turn))
        wanted = own.imag + half, hole.up  # derived: the front left corner lies half the length to the left
        assert min(math.dist(wanted, at[:2]) for at in drilled) < 0.002
    assert {round(size, 3) for *_, size in drilled} == {0.8}
    assert len([name for name in listed(file) if name.startswith("tie hole, string")]) == 10 * holes


@pytest.mark.parametrize("kind", ["pdf", "svg"])
def test_the_tie_block_is_drawn_full_size(kind: str, tmp_path: File) -> None:
    job, layout = tied(length=66.0, height=9.0)
    file = written(job, layout, tmp_path, "tie-block", kind)
    items = readers.pdf_items(file) if kind == "pdf" else readers.svg_items(file)
    sizes = []
    for item in items:
        xs, ys = [x for x, _ in item.points], [y for _, y in item.points]
        if item.closed and len(item.points) in (4, 5):
            sizes.append((round(max(xs) - min(xs), 2), round(max(ys) - min(ys), 2)))
    assert (66.0, 9.0) in sizes or (9.0, 66.0) in sizes


def test_bass_and_treble_stand_where_an_eye_behind_the_tail_has_them() -> None:
    """A right-handed bass is the right of one who sights from the headstock, and so the left of one behind the tail."""
    from export.drawing.marks import Text

    job, layout = tied()
    draw = TEMPLATES["tie-block"].draw
    assert draw is not None
    at = {mark.shape.text: mark.shape.at[0] for mark in draw(job, layout, STAMP).marks if isinstance(mark.shape, Text)}
    assert at["BASS"] < 0 < at["TREBLE"]
    assert at["5b"] < at["1a"]


def test_a_bridge_without_one_says_so() -> None:
    from export.errors import ExportError

    draw = TEMPLATES["tie-block"].draw
    assert draw is not None
    with pytest.raises(ExportError, match="needs a bridge with a tie block; this one has none"):
        draw(*split("one"), STAMP)


def test_it_is_dashed_on_the_bridge() -> None:
    job, layout = tied()
    draw = TEMPLATES["bridge"].draw
    assert draw is not None
    marks = draw(job, layout, STAMP).marks
    assert sum(mark.purpose == "hidden" and mark.of.startswith("tie:") for mark in marks) == 20
    assert [mark.purpose for mark in marks if mark.of == "tie block"] == ["mark"]
    assert not any(mark.purpose == "drill" and mark.of.startswith("tie:") for mark in marks)
    assert isinstance(job.bridge.tie if job.bridge else None, TieBlock)


@pytest.mark.parametrize("holes", [1, 2])
def test_the_job_sheet_lists_the_tie_holes_among_the_drills(holes: Literal[1, 2]) -> None:
    """derived: a hole or two for each of the strings; 1.6 mm wide in the sample, 4 mm over the bottom"""
    job, layout = tied(holes=holes)
    assert job.strings is not None
    (row,) = [row for row in job_tables.holes(job, layout) if row[0] == "Tie holes"]
    assert row[1:4] == [str(holes * len(job.strings.list)), "1.6 mm", "1.6 mm"]
    assert row[5] == "through the block, 4.0 mm over the bottom"
