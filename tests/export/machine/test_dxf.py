"""DXF: units, extents, layers, true circles, releases."""

import math
import re
from pathlib import Path as File
from typing import Literal

import msgspec
import pytest
from ezdxf import recover

from export import write_all
from export.drawing import typeface
from export.drawing.marks import Text
from export.drawing.pens import PENS
from export.machine.dxf import LINE_TYPES, _nearest_weight
from export.machine.machine_file import MachineSettings, datum_place, machine_drawing
from export.paper.furniture import marks_box
from export.records import Stamp
from export.templates import TEMPLATES
from export.templates.to_be_read_first import warnings_of
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers
from tests.in_one import in_one

LAYERS = {
    *("CUT_OUTSIDE", "CUT_INSIDE", "DRILL", "MARK", "REFERENCE", "CENTRE", "OLD", "METAL", "DIMENSION"),
    *("DATUM", "WORDS", "NOTES"),
}
"""Those of a placement template that is to be made; one for the instrument itself has ROUTE and no CUT_OUTSIDE."""


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
        x, y = (float(word) for word in note.split(";")[0].split(" X ")[1].split(" Y "))
        assert note.startswith(f"Units mm. Datum: {datum}, X ")
        assert note.endswith("; X runs along the neck's centre line to the tail.")
        assert (x % 10, y % 10) == (0.0, 0.0)


def test_the_lower_left_datum_is_the_templates_own_corner(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File
) -> None:
    file = written(job, layout, stamp, tmp_path, MachineSettings(datum="lower left"))
    (edge,) = [item.points for item in readers.dxf_items(file) if item.where == "CUT_OUTSIDE"]
    corner = min(x for x, _ in edge), min(y for _, y in edge)
    (note,) = [text for text in readers.dxf_texts(file) if text.startswith("Units mm. Datum: ")]
    assert note == f"Units mm. Datum: lower left corner, X {corner[0]:g} Y {corner[1]:g}."
    assert [value % 10 for value in corner] == pytest.approx([0.0, 0.0])


@pytest.mark.parametrize(
    ("template", "layer"), [("placement", "CUT_OUTSIDE"), ("bridge", "CUT_OUTSIDE"), ("plate", "MARK")]
)
@pytest.mark.parametrize("machine", [MachineSettings(), MachineSettings(cutter=3.0)])
def test_the_size_that_is_said_is_that_of_the_lines_in_the_file(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, template: str, layer: str, machine: MachineSettings
) -> None:
    """Whoever measures the layer sees a unit that was misread, or a cutter allowed for twice."""
    file = written(job, layout, msgspec.structs.replace(stamp, templates=(template,)), tmp_path, machine)
    (said,) = [text for text in readers.dxf_texts(file) if text.startswith("Measure first: ")]
    xs, ys = zip(*(p for i in readers.dxf_items(file) if i.where == layer for p in i.points), strict=True)
    found = re.fullmatch(r"Measure first: (\w+) is ([\d.]+) wide and ([\d.]+) high in all\.", said)
    assert found is not None
    assert found[1] == layer
    assert [float(found[2]), float(found[3])] == pytest.approx([max(xs) - min(xs), max(ys) - min(ys)], abs=0.06)


def test_layers_are_named_for_what_they_are_coloured_twice_and_as_wide_as_their_pens(file: File) -> None:
    entities = readers.dxf_entities(file)
    assert {codes[8] for _, codes in entities} == LAYERS
    colours: dict[str, set[str]] = {}
    for _, codes in entities:
        colours.setdefault(codes[8], set()).add(codes[62])
    assert all(len(found) == 1 for found in colours.values())
    pairs = readers.dxf_pairs(file)
    for layer, found in colours.items():
        at = next(k for k, pair in enumerate(pairs) if pair == (2, layer))
        assert (62, next(iter(found))) in pairs[at : at + 6]
    widths = {(codes[8], int(codes[370])) for _, codes in entities}
    assert widths >= {("CUT_OUTSIDE", 50), ("DRILL", 35), ("CENTRE", 18)}  # the pens', in hundredths of a mm
    assert min(width for _, width in widths) > 0


def test_only_plain_entities(file: File) -> None:
    assert {name for name, _ in readers.dxf_entities(file)} == {"LINE", "CIRCLE", "LWPOLYLINE", "TEXT"}


def test_outlines_are_closed_by_flag(file: File) -> None:
    outlines = [c for name, c in readers.dxf_entities(file) if name == "LWPOLYLINE" and c[8] in ("CUT_OUTSIDE", "MARK")]
    assert len(outlines) == 3
    assert all(int(codes[70]) & 1 for codes in outlines)


def test_no_words_on_a_layer_to_cut(file: File) -> None:
    assert {codes[8] for name, codes in readers.dxf_entities(file) if name == "TEXT"} == {"WORDS", "NOTES"}


def test_the_belly_has_bulges_or_chords(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    assert layout.bridge is not None
    bulged = [
        c for n, c in readers.dxf_entities(written(job, layout, stamp, tmp_path)) if n == "LWPOLYLINE" and 42 in c
    ]
    assert len([c for c in bulged if c[8] == "MARK"]) == 1
    plain = written(job, layout, stamp, tmp_path, MachineSettings(bulges=False))
    assert not [c for n, c in readers.dxf_entities(plain) if n == "LWPOLYLINE" and 42 in c]
    corners = [int(c[90]) for n, c in readers.dxf_entities(plain) if n == "LWPOLYLINE" and c[8] == "MARK"]
    assert max(corners, default=0) > 30  # group 90 is how many corners one has (the DXF reference, LWPOLYLINE)


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
    assert {codes[8] for _, codes in readers.dxf_entities(file)} == {
        "CUT_OUTSIDE",
        "CUT_INSIDE",
        "DRILL",
        "DATUM",
        "NOTES",
    }


def test_line_types_have_the_standard_names(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """CENTER, DIVIDE and DASHED (from memory: standard line types), each with its dashes in the file. Readers that draw
    by a type's name alone know these.
    """
    asked = msgspec.structs.replace(stamp, templates=("plate",))
    for machine in (MachineSettings(), MachineSettings(release="R12")):
        pairs = readers.dxf_pairs(written(job, layout, asked, tmp_path, machine))
        types = {}
        for layer in ("CENTRE", "OLD", "HIDDEN", "METAL", "MARK"):
            at = next(k for k, pair in enumerate(pairs) if pair == (2, layer))
            types[layer] = next(value for code, value in pairs[at:] if code == 6).upper()
        assert types == {
            "CENTRE": "CENTER",
            "OLD": "DIVIDE",
            "HIDDEN": "DASHED",
            "METAL": "DASHED",
            "MARK": "CONTINUOUS",
        }
        for name in ("CENTER", "DIVIDE", "DASHED"):
            at = next(k for k, pair in enumerate(pairs) if pair == (2, name))
            assert float(next(value for code, value in pairs[at:] if code == 40)) > 0.0


@pytest.mark.parametrize("release", ["R2010", "R12"])
def test_words_stand_where_their_baseline_starts_whatever_their_alignment(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, release: Literal["R2010", "R12"]
) -> None:
    """Group codes 72 and 73 (left, baseline: 0) and 11 are what some programs ignore; 10 and 20 all read."""
    file = written(job, layout, stamp, tmp_path, MachineSettings(release=release))
    figure = TEMPLATES["placement"].draw
    assert figure is not None
    cut = machine_drawing(
        figure(job, layout, stamp), layout, MachineSettings(release=release), job.title, warnings_of(job, layout)
    )
    wanted = [typeface.baseline(m.shape) for m in cut.marks if isinstance(m.shape, Text)]
    texts = [codes for name, codes in readers.dxf_entities(file) if name == "TEXT"]
    assert all(codes.get(72, "0") == codes.get(73, "0") == "0" for codes in texts)
    found = [(float(codes[10]), float(codes[20])) for codes in texts]
    assert len(found) == len(wanted)
    assert all(math.dist(a, b) < 0.001 for a, b in zip(sorted(found), sorted(wanted), strict=True))


def test_plus_or_minus_is_told_in_the_files_own_way(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """%%p for ±, %%d for ° (the DXF reference, TEXT)."""
    named = tuple(msgspec.structs.replace(s, name=f"{s.name} ±5°") for s in layout.strings)
    asked = msgspec.structs.replace(stamp, templates=("nut-slots",))
    file = written(job, msgspec.structs.replace(layout, strings=named), asked, tmp_path)
    texts = [codes[1] for name, codes in readers.dxf_entities(file) if name == "TEXT"]
    assert "1 %%p5%%d" in texts
    assert not any("±" in text or "°" in text for text in texts)


def test_every_sign_is_one_that_stroke_fonts_have(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """A CAD program that lacks the typeface sets words in its own stroke font and drops what that lacks."""
    titled = msgspec.structs.replace(job, title="The maker’s “old” one – 2 − 1…")
    for name in ("placement", "bridge", "nut-slots"):
        file = written(titled, layout, msgspec.structs.replace(stamp, templates=(name,)), tmp_path / name)
        texts = [codes[1] for kind, codes in readers.dxf_entities(file) if kind == "TEXT"]
        assert any("machine's own instructions" in text for text in texts)
        assert all(sign.isascii() for text in texts for sign in text)


def test_per_cent_signs_of_a_persons_own_are_not_codes(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """%%u would underline what follows; %%% is a per cent sign (the DXF reference, TEXT)."""
    named = tuple(msgspec.structs.replace(s, name=f"{s.name}%%u") for s in layout.strings)
    asked = msgspec.structs.replace(stamp, templates=("nut-slots",))
    file = written(job, msgspec.structs.replace(layout, strings=named), asked, tmp_path)
    assert "1%%%%%%u" in [codes[1] for name, codes in readers.dxf_entities(file) if name == "TEXT"]


def test_r12_tells_line_widths_by_colour(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    stamp = msgspec.structs.replace(stamp, templates=("nut-slots",))  # it has few words to outline
    for text in ("text", "outlines"):
        file = written(job, layout, stamp, tmp_path, MachineSettings(release="R12", text=text))
        assert 370 not in {code for code, _ in readers.dxf_pairs(file)}
    texts = readers.dxf_texts(written(job, layout, stamp, tmp_path, MachineSettings(release="R12")))
    (note,) = [text for text in texts if text.startswith("DXF R12 has no line widths. Pens by colour, mm: ")]
    said = dict(part.split(" = ") for part in note.partition("mm: ")[2].rstrip(".").split(", "))
    colours = {codes[62] for name, codes in readers.dxf_entities(file) if name not in ("TEXT", "SEQEND", "VERTEX")}
    assert colours == set(said)
    assert (said["14"], said["6"]) == (f"{PENS['cut'].width:g}", f"{PENS['mark'].width:g}")
    new = written(job, layout, stamp, tmp_path)
    assert not [text for text in readers.dxf_texts(new) if "R12" in text]


@pytest.mark.parametrize("release", ["R2010", "R12"])
@pytest.mark.parametrize("name", ["placement", "full-length", "bridge", "clearing", "plate", "nut-slots"])
def test_ezdxf_audits_every_file_without_a_fault(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, release: Literal["R2010", "R12"]
) -> None:
    asked = msgspec.structs.replace(stamp, templates=(name,))
    document, auditor = recover.readfile(written(job, layout, asked, tmp_path, MachineSettings(release=release)))
    assert [*auditor.errors, *auditor.fixes] == []
    assert not document.audit().has_issues


@pytest.mark.parametrize("name", ["placement", "bridge", "clearing", "nut-slots"])
def test_an_inch_jobs_file_is_labelled_in_mm_alone(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str
) -> None:
    inches = msgspec.structs.replace(job, unit="in")
    asked = msgspec.structs.replace(stamp, templates=(name,))
    texts = [text for text in readers.dxf_texts(written(inches, layout, asked, tmp_path)) if "Reading r2" not in text]
    assert texts == [
        text for text in readers.dxf_texts(written(job, layout, asked, tmp_path)) if "Reading r2" not in text
    ]
    assert not [text for text in texts if text.endswith(" in") or "/64" in text]


def test_no_line_is_drawn_twice(file: File) -> None:
    seen: set[tuple[float, ...]] = set()
    for item in readers.dxf_items(file):
        for a, b in zip(item.points, item.points[1:], strict=False):
            key = tuple(round(v, 3) for p in sorted((a, b)) for v in p)
            assert key not in seen
            seen.add(key)


def test_the_plate_is_mirrored_and_says_so(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    file = written(job, layout, msgspec.structs.replace(stamp, templates=("plate",)), tmp_path)
    assert "Mirrored already: seen from inside. Do not mirror it again." in readers.dxf_texts(file)
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


@in_one("weight", [13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100])
def test_a_line_gets_the_nearest_width_that_dxf_knows(weight: int) -> None:
    # Autodesk, DXF Reference, group 370: line weights in hundredths of a mm
    assert {_nearest_weight((weight + off) / 100) for off in (-0.4, 0.0, 0.4)} == {weight}


def test_the_ground_is_as_large_as_what_lies_on_it(job: Job, layout: Layout, stamp: Stamp) -> None:
    """From its lower left, all that is drawn and at least 1 mm more, to a whole millimetre; the notes below in letters
    of which a line runs 1.3 times as long, as in a typeface that stands in (DejaVu Sans: 1.2 times, measured).
    """
    for name, template in TEMPLATES.items():
        if template.draw is None or name not in ("placement", "bridge"):
            continue
        drawing = machine_drawing(template.draw(job, layout, stamp), layout, MachineSettings(), "")
        around = marks_box(drawing.marks)
        notes = marks_box([mark for mark in drawing.marks if mark.of == "file note"])
        wide = max(around.x1, notes.x0 + 1.3 * notes.width)
        assert wide > around.x1 or name == "placement", "in the bridge's file the notes run longest"
        for size, high in zip(drawing.size, (wide, around.y1), strict=True):
            assert high + 1 <= size < high + 2, name


def test_line_types_have_a_gap_after_each_dash(file: File) -> None:
    """derived: in DXF the length of a gap is negative; together they are as long as the pattern says"""
    document, _ = recover.readfile(file)
    for purpose, name in LINE_TYPES.items():
        pattern = document.linetypes.get(name).pattern_tags.tags
        whole, lengths = (
            next(tag.value for tag in pattern if tag.code == 40),
            [t.value for t in pattern if t.code == 49],
        )
        dashes = PENS[purpose].dashes
        assert [abs(length) for length in lengths] == pytest.approx(dashes)
        assert [length > 0 for length in lengths] == [at % 2 == 0 for at in range(len(dashes))]
        assert whole == pytest.approx(sum(dashes))


def test_where_each_datum_lies(layout: Layout) -> None:
    """derived: the board's end crosses the neck centre line where its two corners' heights over that share it out"""
    assert layout.neck is not None
    assert layout.saddle is not None
    ends, saddle = ((450.0, 30.0), (444.0, -20.0)), ((640.0, 26.0), (644.0, -28.0))
    seen = msgspec.structs.replace(
        layout,
        neck=msgspec.structs.replace(layout.neck, end=ends),
        saddle=msgspec.structs.replace(layout.saddle, at_strings=saddle),
    )
    assert datum_place(seen, "board end") == datum_place(seen, "own") == pytest.approx((446.4, 0.0))
    assert datum_place(seen, "saddle centre") == (642.0, -1.0)
    assert datum_place(seen, "lower left") is None
    assert datum_place(msgspec.structs.replace(seen, saddle=None), "saddle centre") is None
    bare = msgspec.structs.replace(seen, neck=msgspec.structs.replace(layout.neck, end=None))
    assert datum_place(bare, "board end") is None
