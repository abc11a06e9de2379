"""DXF: units, extents, layers, true circles, releases."""

import math
from pathlib import Path as File

import msgspec
import pytest

from export import write_all
from export.machine.machine_file import MachineSettings
from export.records import Stamp
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers

PURPOSES = {"CUT", "DRILL", "ROUTE", "LAY", "CENTRE", "BEFORE", "METAL", "DIMENSION", "REGISTER", "WORDS"}


def written(job: Job, layout: Layout, stamp: Stamp, folder: File, machine: MachineSettings | None = None) -> File:
    return write_all(job, layout, stamp, folder, ("dxf",), machine=machine or MachineSettings())[0]


@pytest.fixture
def file(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> File:
    return written(job, layout, stamp, tmp_path)


def test_release_and_units(file: File) -> None:
    """AC1024 is R2010, $INSUNITS 4 is mm, $MEASUREMENT 1 is metric (the DXF reference, header section)."""
    assert readers.dxf_header(file, "$ACADVER") == ["AC1024"]
    assert readers.dxf_header(file, "$INSUNITS") == ["4"]
    assert readers.dxf_header(file, "$MEASUREMENT") == ["1"]


def test_extents_in_header_and_model_space_are_true(file: File) -> None:
    points = readers.all_points(readers.dxf_items(file))
    low = [min(p[axis] for p in points) for axis in (0, 1)]
    high = [max(p[axis] for p in points) for axis in (0, 1)]
    for name, wanted in (("$EXTMIN", low), ("$EXTMAX", high)):
        assert [float(v) for v in readers.dxf_header(file, name)[:2]] == pytest.approx(wanted, abs=0.005)
    pairs = readers.dxf_pairs(file)
    layout_at = next(k for k, pair in enumerate(pairs) if pair == (1, "Model"))
    extents = {code: float(value) for code, value in pairs[layout_at : layout_at + 40] if code in (14, 24, 15, 25)}
    assert [extents[14], extents[24]] == pytest.approx(low, abs=0.005)
    assert [extents[15], extents[25]] == pytest.approx(high, abs=0.005)


def test_nothing_is_negative(file: File) -> None:
    assert min(min(p) for p in readers.all_points(readers.dxf_items(file))) >= 0.0
    at = [float(c[10]) for name, c in readers.dxf_entities(file) if name == "TEXT"]
    assert min(at) >= 0.0


def test_the_datum_is_said_and_lies_on_whole_tens(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    for datum in ("board end", "saddle centre"):
        texts = readers.dxf_texts(written(job, layout, stamp, tmp_path, MachineSettings(datum=datum)))
        (note,) = [text for text in texts if text.startswith("Units mm. Datum: ")]
        x, y = (float(word) for word in note.rstrip(".").split(" X ")[1].split(" Y "))
        assert note.startswith(f"Units mm. Datum: {datum}, X ")
        assert (x % 10, y % 10) == (0.0, 0.0)


def test_lower_left_starts_at_nought(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    machine = MachineSettings(datum="lower left", text="outlines")
    points = readers.all_points(readers.dxf_items(written(job, layout, stamp, tmp_path, machine)))
    assert min(p[0] for p in points) == pytest.approx(0.0, abs=0.3)  # a letter's own space before its stem
    assert min(p[1] for p in points) < 2.5


def test_layers_are_named_by_purpose_and_coloured_twice(file: File) -> None:
    entities = readers.dxf_entities(file)
    assert {codes[8] for _, codes in entities} == PURPOSES
    colours: dict[str, set[str]] = {}
    for _, codes in entities:
        colours.setdefault(codes[8], set()).add(codes[62])
    assert all(len(found) == 1 for found in colours.values())
    pairs = readers.dxf_pairs(file)
    for layer, found in colours.items():
        at = next(k for k, pair in enumerate(pairs) if pair == (2, layer))
        assert (62, next(iter(found))) in pairs[at : at + 6]


def test_only_plain_entities(file: File) -> None:
    assert {name for name, _ in readers.dxf_entities(file)} == {"LINE", "CIRCLE", "LWPOLYLINE", "TEXT"}


def test_outlines_are_closed_by_flag(file: File) -> None:
    outlines = [c for name, c in readers.dxf_entities(file) if name == "LWPOLYLINE" and c[8] in ("CUT", "ROUTE")]
    assert len(outlines) == 3
    assert all(int(codes[70]) & 1 for codes in outlines)


def test_no_words_on_a_layer_to_cut(file: File) -> None:
    assert {codes[8] for name, codes in readers.dxf_entities(file) if name == "TEXT"} == {"WORDS"}


def test_the_belly_has_bulges_or_chords(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    assert layout.bridge is not None
    bulged = [
        c for n, c in readers.dxf_entities(written(job, layout, stamp, tmp_path)) if n == "LWPOLYLINE" and 42 in c
    ]
    assert len([c for c in bulged if c[8] == "CUT"]) == 1
    plain = written(job, layout, stamp, tmp_path, MachineSettings(bulges=False))
    assert not [c for n, c in readers.dxf_entities(plain) if n == "LWPOLYLINE" and 42 in c]
    outline = max((i for i in readers.dxf_items(plain) if i.where == "CUT"), key=lambda i: len(i.points))
    assert len(outline.points) > 30


def test_r12_keeps_every_outline_and_says_mm(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    new = readers.dxf_items(written(job, layout, stamp, tmp_path))
    file = written(job, layout, stamp, tmp_path, MachineSettings(release="R12"))
    assert file.name == "placement-mm.dxf"
    assert readers.dxf_header(file, "$ACADVER") == ["AC1009"]
    old = readers.dxf_items(file)
    assert length(old) == pytest.approx(length(new), rel=1e-6)
    assert len(old) == len(new)
    assert any(text.startswith("Units mm.") for text in readers.dxf_texts(file))


def length(items: list[readers.Item]) -> float:
    return sum(
        math.dist(a, b)
        for item in items
        for a, b in zip(
            item.points, (*item.points[1:], item.points[0] if item.closed else item.points[-1]), strict=True
        )
    )


def test_only_the_purposes_asked_for(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    file = written(job, layout, stamp, tmp_path, MachineSettings(purposes=frozenset(("cut", "drill"))))
    assert {codes[8] for _, codes in readers.dxf_entities(file)} == {"CUT", "DRILL", "REGISTER", "WORDS"}


def test_no_line_is_drawn_twice(file: File) -> None:
    seen: set[tuple[float, ...]] = set()
    for item in readers.dxf_items(file):
        for a, b in zip(item.points, item.points[1:], strict=False):
            key = tuple(round(v, 3) for p in sorted((a, b)) for v in p)
            assert key not in seen
            seen.add(key)


def test_the_plate_is_mirrored_and_says_so(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    file = written(job, layout, msgspec.structs.replace(stamp, templates=("plate",)), tmp_path)
    assert "Mirrored: seen from inside." in readers.dxf_texts(file)
    circles = [(float(c[10]), float(c[20])) for n, c in readers.dxf_entities(file) if n == "CIRCLE" and c[8] == "DRILL"]
    assert layout.bridge is not None
    before = [pin.at for pin in layout.bridge.pins]
    assert orient(before[0], before[-1], layout.bridge.corners[3]) * orient(circles[0], circles[-1], back(file)) < 0


def back(file: File) -> tuple[float, float]:
    """A place behind the bridge in the plate's file: the tail end of the centre line."""
    lines = [i.points for i in readers.dxf_items(file) if i.where == "CENTRE"]
    longest = max(lines, key=lambda points: math.dist(points[0], points[-1]))
    return max(longest)


def orient(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def test_all_lies_in_the_plane(file: File) -> None:
    """A third coordinate, where one is written, is 0: in the header's extents and in every entity."""
    for name in ("$EXTMIN", "$EXTMAX"):
        assert [float(value) for value in readers.dxf_header(file, name)[2:]] == [0.0]
    assert all(float(codes.get(30, 0.0)) == float(codes.get(31, 0.0)) == 0.0 for _, codes in readers.dxf_entities(file))
