"""The command line as a person uses it: what it prints, where it writes, how it ends."""

import datetime
import errno
import json
import os
import subprocess
import sys
import warnings
from pathlib import Path

import msgspec
import pdfplumber
import pytest

from app.__main__ import OUR_FAULT, main
from app.cli import command_line
from app.desk import frame
from app.edit.start.new_job import begin
from app.file import job_file, samples, settings
from app.file.settings import Settings
from export.correction import CheckSheet
from export.templates import TEMPLATES

SAMPLE = str(samples.find("leaning-neck"))


def test_work_out_prints_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    assert command_line.run(["work-out", SAMPLE]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("Leaning neck\nright-handed · 6 strings · file ")
    assert err == ""


def test_a_job_without_a_title_is_called_by_its_files_name(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "attic-left.job.json"
    job = begin(hand="left")
    job_file.write(job, path)
    assert command_line.run(["work-out", str(path)]) == 0
    head = capsys.readouterr().out.splitlines()[:2]
    assert head == ["attic-left", f"left-handed · 6 strings · file {job_file.fingerprint(job)}"]


def test_work_out_as_json_is_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert command_line.run(["work-out", SAMPLE, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "Leaning neck"


def test_export_makes_the_folder_and_names_what_it_wrote(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "for the client" / "sheets"
    assert command_line.run(["export", SAMPLE, "--to", str(folder), "--only", "pdf"]) == 0
    assert capsys.readouterr().out == f"{folder / 'placement.pdf'}\n"
    assert [path.name for path in folder.iterdir()] == ["placement.pdf"]


def page_text(path: Path) -> str:
    with pdfplumber.open(path) as pdf:
        return " ".join(pdf.pages[0].extract_text().split())


def test_the_sheet_carries_the_fingerprint_of_the_file_and_the_day(tmp_path: Path) -> None:
    assert command_line.run(["export", SAMPLE, "--to", str(tmp_path), "--only", "pdf", "--paper", "A3"]) == 0
    said = page_text(tmp_path / "placement.pdf")
    assert f"file {job_file.fingerprint(job_file.read(Path(SAMPLE)))}" in said
    today = datetime.datetime.now().astimezone().date()
    assert str(today.year) in said
    assert "A3" in said


def test_the_sheet_carries_a_printers_correction(tmp_path: Path) -> None:
    settings.save(Settings().with_printer("Laser", CheckSheet(across=181.09, up=179.46)))
    assert command_line.run(["export", SAMPLE, "--to", str(tmp_path), "--only", "pdf", "--printer", "Laser"]) == 0
    said = page_text(tmp_path / "placement.pdf")
    assert "0.994" in said
    assert "1.003" in said


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def exported(folder: Path, *options: str, job: str = SAMPLE) -> int:
    return command_line.run(["export", job, "--to", str(folder), *options])


TIE = str(samples.find("tie-bridge"))
"""A bridge without pin holes, for which no plate can be drawn."""
NO_PLATE = "offsquare: left out: The plate template needs a bridge with pin holes; this one has none.\n"


def test_a_template_that_was_named_and_cannot_be_made_is_no_success(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ("--template", "plate", "--template", "bridge", "--only", "pdf")
    assert exported(tmp_path, *asked, job=TIE) == 2
    assert capsys.readouterr() == (f"{tmp_path / 'bridge.pdf'}\n", NO_PLATE)


def test_of_all_templates_an_impossible_one_is_left_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exported(tmp_path, "--template", "all", "--only", "pdf", job=TIE) == 0
    standing = ("bridge-place", "crown", "tailpiece", "saddle-bases", "saddle-bases-back")
    blanks = ("nut-blank", "saddle-blank")  # of neither anything is asked
    headstock = ("headstock", "headstock-back", "headstock-sides", "post-jig")
    left_out = ("plate", "tie-block", *standing, *blanks, *headstock, "side-markers", "face-markers")
    assert names(tmp_path) == sorted(f"{name}.pdf" for name in TEMPLATES if name not in left_out)
    said = capsys.readouterr().err
    assert said.startswith(NO_PLATE)
    assert [line.split(":")[1].strip() for line in said.splitlines()] == [
        "left out"
    ] * 11  # the headstock's say the same, and so do those of saddle bases


def test_where_nothing_can_be_made_nothing_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exported(tmp_path / "new", "--template", "plate", job=TIE) == 2
    said = "nothing was written. The plate template needs a bridge with pin holes; this one has none"
    assert capsys.readouterr().err == f"offsquare: {said}.\n"
    assert names(tmp_path) == []


def test_corners_that_stay_round_are_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exported(tmp_path, "--template", "bridge", "--cutter", "1/16 in") == 0
    said = "4 corners of the slot stay round with a cutter of 1.5875 mm: square them by hand, or round what goes into"
    assert capsys.readouterr().err == f"offsquare: {said} them.\n"
    assert exported(tmp_path, "--template", "bridge", "--cutter", "1/16 in", "--only", "pdf") == 0
    assert capsys.readouterr().err == ""


def test_pilot_holes_that_are_too_large_stop_before_any_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert exported(tmp_path / "new", "--pilot", "8") == 2
    assert "nothing was written, for this would spoil the work: The pilot holes of 8 mm" in capsys.readouterr().err
    assert names(tmp_path) == []
    assert exported(tmp_path, "--pilot", "8", "--despite-stops") == 2
    assert names(tmp_path) == ["placement.pdf"]
    assert exported(tmp_path, "--pilot", "8", "--only", "pdf") == 0
    assert exported(tmp_path, "--pilot", "8", "--edge", "none") == 0


def test_a_cutter_that_does_not_fit_the_slot_leaves_it_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exported(tmp_path, "--template", "bridge", "--cutter", "3.175") == 0
    said = "Left out of DXF and SVG: the slot, 3.00 mm wide, where the cutter of 3.175 mm does not fit."
    assert said in capsys.readouterr().err
    assert '<g id="ROUTE"' not in (tmp_path / "bridge.svg").read_text(encoding="utf-8")
    assert exported(tmp_path, "--template", "bridge", "--cutter", "3.175", "--cutter", "slot=2", "--replace") == 0
    assert "Left out" not in capsys.readouterr().err
    assert '<g id="ROUTE"' in (tmp_path / "bridge.svg").read_text(encoding="utf-8")


def test_a_cutter_for_work_that_is_not_known(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exported(tmp_path, "--cutter", "inlay=3") == 2
    said = "offsquare: --cutter takes one for outline, window, slot, holes, not for “inlay”.\n"
    assert capsys.readouterr().err == said
    assert names(tmp_path) == []


def test_a_cutter_for_work_that_no_template_has(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exported(tmp_path, "--template", "nut-slots", "--cutter", "slot=2") == 0
    assert "A cutter is named for slots, but no chosen template has any" in capsys.readouterr().err


def test_a_window_in_place_of_the_outline(tmp_path: Path) -> None:
    assert exported(tmp_path, "--window", "--only", "svg") == 0
    assert '<g id="DRILL"' not in (tmp_path / "placement.svg").read_text(encoding="utf-8")


def test_work_out_tells_of_the_cutter(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = job_file.read(Path(SAMPLE))
    path = tmp_path / "a.job.json"
    sheets = msgspec.structs.replace(job.sheets, cutter="1/4 in", templates=("bridge",))
    job_file.write(msgspec.structs.replace(job, sheets=sheets), path)
    assert command_line.run(["work-out", str(path)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "the slot, 3.00 mm wide, where the cutter of 6.35 mm does not fit" in said
    assert command_line.run(["work-out", str(path), "--json"]) == 0
    assert "cutter.too_large" in [f["code"] for f in json.loads(capsys.readouterr().out)["findings"]]


def test_only_some_sheets(tmp_path: Path) -> None:
    assert exported(tmp_path, "--template", "full-length", "--sheets", "B1, c1", "--only", "pdf") == 0
    with pdfplumber.open(tmp_path / "full-length.pdf") as pdf:
        assert len(pdf.pages) == 2
        assert "sheet B1, 2 of 4" in " ".join((pdf.pages[0].extract_text() or "").split())


def test_only_lines_to_cut_and_drill_in_r12_without_arcs(tmp_path: Path) -> None:
    said = ("--purposes", "cut,drill", "--dxf", "R12", "--arcs", "chords", "--only", "dxf")
    assert exported(tmp_path, "--template", "bridge", *said) == 0
    text = (tmp_path / "bridge-mm.dxf").read_text(encoding="cp1252")  # the code page that the file names
    assert "AC1009" in text
    assert "\nCUT_OUTSIDE\n" in text
    assert "\nROUTE\n" not in text.partition("ENTITIES")[2]


def test_turn_margin_and_ledge(tmp_path: Path) -> None:
    said = ("--turn", "landscape", "--margin", "1/2 in", "--ledge", "1.2", "--only", "pdf", "--template", "clearing")
    assert exported(tmp_path, *said) == 0
    with pdfplumber.open(tmp_path / "clearing.pdf") as pdf:
        page = pdf.pages[0]
        assert page.width > page.height
        assert min(line["x0"] for line in page.lines) >= 36 - 1  # 1/2 in = 36 pt
    assert "stands 1.2 mm outside it" in page_text(tmp_path / "clearing.pdf")


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert command_line.run(["--version"]) == 0
    assert capsys.readouterr().out == f"offsquare {command_line.version()}\n"


@pytest.mark.parametrize("argv", [["--help"], ["work-out", "--help"], ["export", "--help"], ["new", "--help"]])
def test_help(argv: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        command_line.run(argv)
    assert ended.value.code == 0
    assert capsys.readouterr().out.startswith("usage: offsquare")


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        command_line.run(["--help"])
    said = capsys.readouterr().out
    assert all(name in said for name in command_line.COMMANDS)


def test_a_machine_that_cannot_show_a_window_says_what_is_missing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delattr(frame, "window", raising=False)  # another test may have opened it
    monkeypatch.setitem(sys.modules, "app.desk.frame.window", None)
    assert command_line.run([SAMPLE]) == 2
    said = capsys.readouterr().err
    assert said.startswith("offsquare: the window cannot open here (")
    assert said.endswith("the README names the packages it needs.\n")


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere there is always a screen")
def test_a_machine_without_a_screen_says_so(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in command_line.SCREENS:
        monkeypatch.delenv(name, raising=False)
    assert command_line.run([]) == 2
    said = "there is no screen to open the window on; work-out, export and new do without one"
    assert capsys.readouterr().err == f"offsquare: {said}.\n"


def test_a_fault_of_the_program_is_no_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    def broken(_: object) -> int:
        raise ZeroDivisionError("by nothing")

    monkeypatch.setattr(command_line, "run", broken)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    assert main() == OUR_FAULT
    (kept,) = tmp_path.iterdir()
    said = f"offsquare: a fault of the program, not of your job (by nothing); what happened is kept in {kept}.\n"
    assert capsys.readouterr().err == said
    assert "ZeroDivisionError" in kept.read_text()


def test_a_librarys_warnings_are_kept_from_the_person(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def warned(_: object) -> int:
        warnings.warn("overflow encountered", RuntimeWarning, stacklevel=1)
        return 0

    monkeypatch.setattr(command_line, "run", warned)
    monkeypatch.setattr(sys, "warnoptions", [])
    with warnings.catch_warnings():
        assert main() == 0
    assert capsys.readouterr().err == ""


def test_ctrl_c_ends_quietly(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def stopped(_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(command_line, "run", stopped)
    assert main() == 130
    assert capsys.readouterr().err == ""


def run(*words: str, **more: str) -> subprocess.CompletedProcess[bytes]:
    environment = {"PATH": "/usr/bin:/bin", "PYTHONPATH": str(Path(__file__).parents[3]), **more}
    return subprocess.run([sys.executable, *words], capture_output=True, check=False, env=environment)


def test_a_terminal_without_the_signs_shows_something_else() -> None:
    done = run("-m", "app", "work-out", SAMPLE, PYTHONIOENCODING="ascii")
    assert done.returncode == 0, done.stderr
    assert b"?" in done.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="pipes close otherwise there")
def test_a_reader_that_goes_away_is_no_fault() -> None:
    script = f"{sys.executable} -m app work-out '{SAMPLE}' --json | head -c 10"
    root = str(Path(__file__).parents[3])
    done = subprocess.run(["/bin/sh", "-c", script], capture_output=True, check=False, cwd=root)
    assert done.stderr == b""
    assert len(done.stdout) == 10


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def written_job(folder: Path, title: str) -> str:
    path = folder / f"{title}.job.json"
    job_file.write(msgspec.structs.replace(job_file.read(Path(SAMPLE)), title=title), path)
    return str(path)


def test_files_of_the_same_job_are_written_over(tmp_path: Path) -> None:
    assert exported(tmp_path) == 0
    first = contents(tmp_path)
    assert exported(tmp_path, "--kerf", "0.2") == 0
    assert {name for name, data in contents(tmp_path).items() if data != first[name]} == {
        "placement.dxf",
        "placement.svg",
    }


def test_files_of_other_origin_are_replaced_only_on_demand(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder, mine = tmp_path / "sheets", written_job(tmp_path, "mine")
    folder.mkdir()
    (folder / "placement.svg").write_text("<svg/>")
    assert exported(folder, job=mine) == 2
    said = f"nothing was written, for {folder} has placement.svg already, not as Offsquare wrote it for this job; "
    assert capsys.readouterr().err == f"offsquare: {said}add --replace, or choose another folder.\n"
    assert contents(folder) == {"placement.svg": b"<svg/>"}
    assert exported(folder, "--replace", job=mine) == 0
    assert exported(folder, job=mine) == 0


def test_files_of_another_job_are_of_other_origin(tmp_path: Path) -> None:
    folder = tmp_path / "sheets"
    assert exported(folder, job=written_job(tmp_path, "one")) == 0
    before = contents(folder)
    assert exported(folder, job=written_job(tmp_path, "another")) == 2
    assert contents(folder) == before


def test_a_file_that_was_worked_on_since_is_not_written_over(tmp_path: Path) -> None:
    assert exported(tmp_path) == 0
    with (tmp_path / "placement.dxf").open("a") as file:
        file.write("999\nmy own note\n")
    assert exported(tmp_path) == 2


def test_a_locked_file_leaves_all_as_it_was_and_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ("--template", "placement", "--template", "plate", "--template", "bridge")
    assert exported(tmp_path, *asked) == 0
    before = contents(tmp_path)
    assert len(before) == 9  # derived: of each a PDF, a DXF and an SVG
    (tmp_path / "plate.svg").chmod(0o444)
    capsys.readouterr()
    assert exported(tmp_path, *asked, "--margin", "12") == 2
    said = f"nothing was written in {tmp_path}, for “plate.svg” there cannot be replaced: it is write-protected; "
    assert said in capsys.readouterr().err
    assert contents(tmp_path) == before


def test_files_that_could_not_be_taken_back_are_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The third file is locked, and so is the second when it is to go back: what was done is what is said."""
    assert exported(tmp_path) == 0
    before = contents(tmp_path)
    replace = Path.replace

    def refuse(self: Path, target: Path) -> Path:
        back = self.parent.name == "before" and self.name == "placement.pdf"
        if back or (Path(target).name == "placement.svg" and Path(target).parent == tmp_path):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(self))
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", refuse)
    capsys.readouterr()
    assert exported(tmp_path, "--margin", "12", "--kerf", "0.2") == 2
    said = capsys.readouterr().err
    assert f"only some files were written in {tmp_path}: placement.pdf took their places" in said
    (kept,) = (path for path in tmp_path.iterdir() if path.is_dir())
    assert f"those from before are in “{kept.name}” there" in said
    assert contents(kept)["placement.pdf"] == before["placement.pdf"]
    after = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}
    assert {name for name in after if after[name] != before[name]} == {"placement.pdf"}


def test_parts_on_stock_with_holes_to_turn_them_on(tmp_path: Path) -> None:
    said = ("--template", "bridge", "--template", "plate", "--stock", "220 x 5 in", "--turning", "--only", "dxf")
    assert exported(tmp_path, *said) == 0
    text = (tmp_path / "stock.dxf").read_text(encoding="utf-8")
    assert "plate seen from inside, to turn on, bass: " in text
    assert "to turn on, bass: " in (tmp_path / "plate.dxf").read_text(encoding="utf-8")


def test_a_stock_too_small_is_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert exported(tmp_path, "--template", "bridge", "--stock", "100x50", "--only", "dxf") == 2
    assert capsys.readouterr().err == (
        "offsquare: left out: The stock of 100 by 50 mm is too small for the bridge, 5 mm apart; give a larger piece, "
        "or fewer parts.\n"
    )
    assert (tmp_path / "bridge.dxf").exists()


@pytest.mark.parametrize(
    ("stock", "said"),
    [
        ("300", "--stock takes a width and a height, such as 300x120, not “300”."),
        (
            "3x300",
            "The stock’s width is 3 mm, but must lie between 10 and 3000 mm; look at the unit and the decimal point.",
        ),
    ],
)
def test_a_stock_that_is_none(tmp_path: Path, capsys: pytest.CaptureFixture[str], stock: str, said: str) -> None:
    assert exported(tmp_path, "--template", "bridge", "--stock", stock) == 2
    assert capsys.readouterr().err == f"offsquare: {said}\n"
    assert not list(tmp_path.iterdir())


def test_stock_none_writes_no_such_file(tmp_path: Path) -> None:
    assert exported(tmp_path, "--template", "bridge", "--stock", "none", "--only", "svg") == 0
    assert [file.name for file in tmp_path.iterdir()] == ["bridge.svg"]
