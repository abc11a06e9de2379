"""Writing files: whole or not at all, and one clear sentence when it cannot be done."""

import errno
from pathlib import Path as File
from typing import get_args

import msgspec
import pdfplumber
import pytest

from app.file import job_file
from export import ExportError, write_all
from export.drawing.marks import Purpose
from export.machine.machine_file import MachineSettings, machine_drawing, machine_settings_of
from export.records import Figure, Stamp
from export.templates.to_be_read_first import doubt_of, warnings_of
from export.writing import is_ours
from geometry import go_or_wait
from geometry.findings import Finding
from geometry.go_or_wait import told_once
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.export import readers


def test_files_are_named_after_their_templates(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    asked = msgspec.structs.replace(stamp, templates=("placement", "job-sheet"))
    names = [file.name for file in write_all(job, layout, asked, tmp_path / "new" / "folder")]
    assert names == ["placement.pdf", "placement.dxf", "placement.svg", "job-sheet.pdf"]
    assert sorted(p.name for p in (tmp_path / "new" / "folder").iterdir()) == sorted(names)


def test_progress_is_told(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    told: list[tuple[int, int, str]] = []
    write_all(job, layout, stamp, tmp_path, ("pdf", "dxf"), progress=lambda *step: told.append(step))
    assert told == [(0, 2, "placement.pdf"), (1, 2, "placement.dxf"), (2, 2, "")]


def test_a_full_disk_leaves_the_old_file(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "placement.pdf"
    target.write_text("the old one")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(ExportError, match=r"“placement\.pdf” can’t be written .*: the disk is full\. Choose another"):
        write_all(job, layout, stamp, tmp_path, ("pdf",))
    assert target.read_text() == "the old one"
    assert [file.name for file in tmp_path.iterdir()] == ["placement.pdf"]


def test_a_folder_that_is_a_file(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (tmp_path / "taken").write_text("")
    with pytest.raises(ExportError, match="can’t be written"):
        write_all(job, layout, stamp, tmp_path / "taken", ("pdf",))


def test_a_folder_that_may_not_be_written(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(errno.EACCES, "Permission denied")

    monkeypatch.setattr("export.files.replace", refuse)
    with pytest.raises(ExportError, match="this account may not open it"):
        write_all(job, layout, stamp, tmp_path, ("pdf",))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"templates": ("poster",)}, "There is no template “poster”"),
        ({"paper": "papyrus"}, "The paper “papyrus” is not known"),
        ({"paper": "80x90", "margin": 30.0}, "leaves no room"),
        ({"only": ("placement B7",)}, "No sheet is called placement B7"),
        ({"paper": "A5", "templates": ("check-sheet",)}, "The check sheet needs A4 or Letter"),
    ],
)
def test_bad_orders_are_refused(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, change: dict[str, object], said: str
) -> None:
    with pytest.raises(ExportError, match=said):
        write_all(job, layout, msgspec.structs.replace(stamp, **change), tmp_path, ("pdf",))
    assert not list(tmp_path.iterdir())


def test_an_unknown_kind_of_file(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    with pytest.raises(ExportError, match="“gif” is not a kind of file"):
        write_all(job, layout, stamp, tmp_path, ("gif",))


@pytest.mark.parametrize("name", ["placement", "full-length", "bridge", "clearing", "plate", "nut-slots"])
def test_a_layout_that_stops_short_says_what_is_missing(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str
) -> None:
    short = msgspec.structs.replace(layout, bridge=None, saddle=None, strings=(), frets=None, checks=())
    with pytest.raises(ExportError, match="need"):
        write_all(job, short, msgspec.structs.replace(stamp, templates=(name,)), tmp_path, ("pdf",))


def test_a_job_sheet_can_always_be_printed(job: Job, stamp: Stamp, tmp_path: File) -> None:
    from geometry.layout import Layout, Survey, Why

    bare = Layout(frame="straightedge", points={}, readings=(), survey=Survey(verdict="loose", why=Why(what="")))
    asked = msgspec.structs.replace(stamp, templates=("job-sheet",))
    (file,) = write_all(job, bare, asked, tmp_path, ("pdf",))
    assert file.stat().st_size > 5000


def test_nothing_left_to_write(layout: Layout) -> None:
    figure = Figure(title="Empty", marks=())
    with pytest.raises(ExportError, match="Nothing is left to write"):
        machine_drawing(figure, layout, MachineSettings(), "")


def test_what_the_job_says_of_its_files(job: Job) -> None:
    asked = msgspec.structs.replace(job.sheets, kerf="0.2 mm", cutter="1/8 in", text="outlines", datum="lower left")
    machine = machine_settings_of(msgspec.structs.replace(job, sheets=asked))
    assert machine == MachineSettings(datum="lower left", kerf=0.2, cutter=3.175, text="outlines")


def test_the_file_says_which_tool_it_is_for(job: Job, layout: Layout, stamp: Stamp) -> None:
    from export.templates.glued.placement import draw

    cut = machine_drawing(draw(job, layout, stamp), layout, MachineSettings(kerf=0.2), job.title)
    assert "Edges to cut, rout and drill are offset for a kerf of 0.2 mm: set no further offset." in cut.says
    plain = machine_drawing(
        draw(job, layout, stamp), layout, MachineSettings(), job.title, ("STOP. Metal is in the way.",)
    )
    assert plain.says[2:4] == ("Lines are the edges themselves.", "STOP. Metal is in the way.")
    assert plain.says[4:8] == (
        "As seen from outside: do not mirror it.",
        "A template. Engrave OLD, METAL, CENTRE, REFERENCE, DIMENSION, WORDS, MARK.",
        "Then cut DRILL, CUT_INSIDE, CUT_OUTSIDE: in this order.",
        "Holes that this template shows, X and Y from the datum, mm:",
    )


def without_pins(layout: Layout) -> Layout:
    assert layout.bridge is not None
    return msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))


def test_what_cannot_be_made_is_left_out_and_said(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    said: list[str] = []
    asked = msgspec.structs.replace(stamp, templates=("plate", "bridge"))
    written = write_all(job, without_pins(layout), asked, tmp_path, left_out=said.append)
    assert [file.name for file in written] == ["bridge.pdf", "bridge.dxf", "bridge.svg"]
    assert said == ["The plate template needs a bridge with pin holes; this one has none"]


def test_with_nobody_to_tell_it_is_an_error(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    asked = msgspec.structs.replace(stamp, templates=("bridge", "plate"))
    with pytest.raises(ExportError, match="The plate template needs"):
        write_all(job, without_pins(layout), asked, tmp_path)
    assert not list(tmp_path.iterdir())


def test_a_kerf_that_does_not_fit_costs_no_pdf(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    said: list[str] = []
    written = write_all(job, layout, stamp, tmp_path, machine=MachineSettings(kerf=1.5), left_out=said.append)
    assert [file.name for file in written] == ["placement.pdf"]
    assert said == [
        "Placement template, DXF and SVG: The kerf of 1.5 mm is too large for the pilot hole 1, which is 1.00 mm wide; "
        "look at its decimal point"
    ]


def test_names_and_paper_are_never_left_out(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    for change in ({"templates": ("bridge", "poster")}, {"paper": "papyrus"}, {"paper": "80x90", "margin": 30.0}):
        with pytest.raises(ExportError):
            write_all(job, layout, msgspec.structs.replace(stamp, **change), tmp_path, left_out=lambda _: None)
        assert not list(tmp_path.iterdir())


def test_only_the_chosen_sheets_are_in_the_pdf(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    asked = msgspec.structs.replace(stamp, templates=("placement", "full-length"), only=("B1",))
    (file,) = write_all(job, layout, asked, tmp_path, ("pdf",))
    assert file.name == "full-length.pdf"
    assert "sheet B1, 2 of 4" in readers.pdf_words(file, 0)


def test_only_lines_for_the_chosen_purposes(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    sheets = msgspec.structs.replace(job.sheets, purposes=("route", "drill"))
    asked = msgspec.structs.replace(job, sheets=sheets)
    (file,) = write_all(asked, layout, msgspec.structs.replace(stamp, templates=("bridge",)), tmp_path, ("dxf",))
    assert {item.where for item in readers.dxf_items(file)} - {"NOTES", "DATUM"} == {"ROUTE", "DRILL"}


def test_a_loose_strip_has_its_own_corner_for_a_datum(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The board's end is 450 mm away from the strip: a cross there would make the file as long."""
    from export.templates.blanks.nut import DEEP, draw

    cut = machine_drawing(draw(job, layout, stamp), layout, MachineSettings(), job.title)
    assert cut.says[0] == f"Units mm. Datum: lower left corner, X {cut.datum[0]:g} Y {cut.datum[1]:g}."
    assert layout.neck is not None
    (_, right) = layout.neck.nut
    assert cut.datum == pytest.approx(cut.transform.xy((right[0] - DEEP, right[1])))
    assert cut.size[0] < 150.0
    chosen = machine_drawing(draw(job, layout, stamp), layout, MachineSettings(datum="board end"), job.title)
    assert chosen.says[0].startswith("Units mm. Datum: board end, X ")


def test_paper_and_files_say_that_a_reading_is_to_be_looked_at_again(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File
) -> None:
    assert layout.survey.suspects == ("r2",)
    says = doubt_of(job, layout)
    assert says.startswith("Look again before you use this: reading “")
    pdf, dxf = write_all(
        job, layout, msgspec.structs.replace(stamp, templates=("full-length",)), tmp_path, ("pdf", "dxf")
    )
    with pdfplumber.open(pdf) as found:
        assert all("Look again before you use this" in (page.extract_text() or "") for page in found.pages)
    assert says.translate(str.maketrans("“”", '""')) in dxf.read_text(encoding="utf-8")
    large = Finding(grade="look", code="x.far", text="The new place lies 14 mm from the old one.", large=True)
    both = msgspec.structs.replace(layout, findings=(large,))
    assert doubt_of(job, both) == f"{says} {large.text}"
    assert doubt_of(job, both) in warnings_of(job, both)
    sure = msgspec.structs.replace(layout, survey=msgspec.structs.replace(layout.survey, suspects=()))
    assert doubt_of(job, sure) == ""
    (pdf,) = write_all(job, sure, stamp, tmp_path / "sure", ("pdf",))
    with pdfplumber.open(pdf) as found:
        assert not any("Look again" in (page.extract_text() or "") for page in found.pages)


def test_a_file_is_known_again_as_its_jobs_own_until_it_is_changed(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File
) -> None:
    for machine in (MachineSettings(), MachineSettings(release="R12")):
        for file in write_all(job, layout, stamp, tmp_path, owner="mine", machine=machine):
            assert is_ours(file, "mine"), file.name
            assert not is_ours(file, "another’s"), file.name
            file.write_bytes(file.read_bytes().replace(b"0", b"1", 1))
            assert not is_ours(file, "mine"), file.name
    (tmp_path / "foreign").write_bytes(b"offsquare")
    assert not is_ours(tmp_path / "foreign", "mine")


def not_yet(file: File) -> list[str]:
    return [text for text in readers.dxf_texts(file) if text.startswith("Don't ")]


@pytest.mark.parametrize(
    ("name", "templates", "left_out", "says"),
    [
        ("turned-left", ("bridge",), (), ["Don't drill the pin holes yet", "Don't cut the slot yet"]),
        ("turned-left", ("bridge",), ("route",), ["Don't drill the pin holes yet"]),
        ("turned-left", ("clearing",), (), []),
        ("turned-left", ("plate",), (), []),
        ("floating-five", ("tailpiece",), (), []),
        ("floating-five", ("crown",), (), ["Don't cut the crown yet"]),
    ],
)
def test_a_file_names_the_steps_that_it_does(
    name: str, templates: tuple[str, ...], left_out: tuple[str, ...], says: list[str], stamp: Stamp, tmp_path: File
) -> None:
    """Whoever drills by the bridge's file alone reads there that pin holes and slot must wait; a tailpiece has no crown
    to cut.
    """
    job = job_file.read(File("sample_jobs") / f"{name}.job.json")
    asked = msgspec.structs.replace(stamp, templates=templates)
    kept = frozenset(get_args(Purpose)) - set(left_out)
    machine = MachineSettings(edge=None, purposes=kept)
    (file,) = write_all(job, work_out(job), asked, tmp_path, ("dxf",), machine=machine)
    assert [text.split(":")[0] for text in not_yet(file)] == says


def test_a_file_that_works_on_the_instrument_says_what_must_wait(stamp: Stamp, tmp_path: File) -> None:
    """In millimetres, as all of such a file is; what makes a template of its own leaves that to its sheet."""
    job = job_file.read(File("sample_jobs") / "turned-left.job.json")
    layout = work_out(job)
    assert [(step.what, step.go) for step in go_or_wait.verdicts(job, layout) if step.what in ("pins", "slot")] == [
        ("pins", False),
        ("slot", False),
    ]
    said = {}
    for edge in (None, 8.0):
        (file,) = write_all(job, layout, stamp, tmp_path / f"{edge}", ("dxf",), machine=MachineSettings(edge=edge))
        said[edge] = not_yet(file)
    assert said[8.0] == []
    assert [text.split(":")[0] for text in said[None]] == ["Don't drill the pin holes yet", "Don't cut the slot yet"]
    assert all(" mm" in text and " in" not in text for text in said[None])


def test_what_waits_at_the_bridge_is_not_said_of_the_headstock(stamp: Stamp, tmp_path: File) -> None:
    job = job_file.read(File("sample_jobs") / "slotted-neck-screw.job.json")
    asked = msgspec.structs.replace(stamp, templates=("placement", "headstock"))
    files = write_all(job, work_out(job), asked, tmp_path, ("dxf",), machine=MachineSettings(edge=None))
    waits = {file.stem: bool(not_yet(file)) for file in files}
    assert waits == {"placement": True, "headstock": False}


def test_what_must_wait_is_worked_out_once_for_all_files(
    stamp: Stamp, tmp_path: File, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Though sheets tell it in inches, and files for a machine in mm."""
    job = job_file.read(File("sample_jobs") / "turned-left.job.json")
    layout, asked = work_out(job), []

    def counted(of: Job, on: Layout) -> tuple[go_or_wait.Step, ...]:
        asked.append(of.unit)
        return go_or_wait.verdicts(of, on)

    monkeypatch.setattr(told_once, "verdicts", counted)
    templates = msgspec.structs.replace(stamp, templates=("placement", "full-length", "bridge"))
    for kind in ("dxf", "pdf", "svg"):
        write_all(job, layout, templates, tmp_path, (kind,), machine=MachineSettings(edge=None))
    assert asked == ["in"]
