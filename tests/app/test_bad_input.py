"""Bad input on the command line: one clear sentence, exit code 2, nothing written, the job file untouched."""

import errno
import json
import os
import subprocess
import sys
import warnings
from pathlib import Path
from typing import Any

import pytest

from app.__main__ import main
from app.cli import command_line
from app.file import job_file, samples

Tree = dict[str, Any]


def sample() -> Tree:
    path = samples.find("leaning-neck")
    assert path is not None
    tree: Tree = json.loads(path.read_bytes())
    return tree


def reading(tree: Tree, kind: str, **wanted: Any) -> Tree:
    found: Tree = next(
        r for r in tree["readings"] if r["kind"] == kind and all(r.get(k) == v for k, v in wanted.items())
    )
    return found


def newer(tree: Tree) -> None:
    tree["offsquare"] = 99


def unknown_key(tree: Tree) -> None:
    tree["bridge"]["lenght"] = tree["bridge"].pop("length")


def text_for_a_number(tree: Tree) -> None:
    tree["frets"] = {"count": "twenty"}


def text_for_a_length(tree: Tree) -> None:
    tree["bridge"]["length"] = "wide"


def negative_width(tree: Tree) -> None:
    tree["bridge"]["width"] = -26


def scale_too_short(tree: Tree) -> None:
    tree["frets"] = {"scale": 6.5}


def fret_12_read_as_13(tree: Tree) -> None:
    for on in ("left", "right"):
        reading(tree, "fret", fret=12, on=on)["fret"] = 13


def same_place(tree: Tree) -> None:
    reading(tree, "distance", of=["old.1", "old.4"])["value"] = 0


def same_point(tree: Tree) -> None:
    reading(tree, "distance", of=["old.1", "old.4"])["of"] = ["old.1", "old.1"]


def nut_too_wide(tree: Tree) -> None:
    reading(tree, "distance", of=["nut.left", "nut.right"])["value"] = 444


def board_too_short(tree: Tree) -> None:
    reading(tree, "distance", of=["nut.left", "end.left"])["value"] = 44.3


def unknown_point(tree: Tree) -> None:
    reading(tree, "distance", of=["nut.left", "nut.right"])["of"] = ["nut.left", "nut.rihgt"]


def side_of_itself(tree: Tree) -> None:
    tree["points"]["nut.right"] = {"side": [{"of": ["nut.right", "end.left"], "is": "left"}]}


def side_of_one_point(tree: Tree) -> None:
    tree["points"]["nut.right"] = {"side": [{"of": ["end.left", "end.left"], "is": "left"}]}


def unknown_template(tree: Tree) -> None:
    tree["sheets"] = {"templates": ["placemnt"]}


def unknown_paper(tree: Tree) -> None:
    tree["sheets"] = {"paper": "foolscap"}


def paper_too_small(tree: Tree) -> None:
    tree["sheets"] = {"paper": "51x51"}


def endless_fraction(tree: Tree) -> None:
    tree["bridge"]["width"] = "9" * 400 + "/3 in"


def line_break_in_a_key(tree: Tree) -> None:
    tree["bridge"]["two\nlines\x1b[31m"] = 1


def against_itself(tree: Tree) -> None:
    line = ["nut.left", "end.left"]
    tree["readings"].append({"id": "x", "kind": "meets", "of": line, "from": line, "value": 3})


def off_its_own_straightedge(tree: Tree) -> None:
    reading(tree, "off", of=["seam.1"])["of"] = ["end.left"]


def cutter_for_unknown_work(tree: Tree) -> None:
    tree["sheets"] = {"cutters": {"inlay": 3}}


def cutter_too_wide(tree: Tree) -> None:
    tree["sheets"] = {"cutters": {"slot": "3 in"}}


def no_template(tree: Tree) -> None:
    tree["sheets"] = {"templates": []}


def slot_past_the_end(tree: Tree) -> None:
    tree["saddle"]["slot_length"] = 200


def refused(argv: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    """Run it, hold it to one sentence on the error stream and exit code 2, and return the sentence."""
    assert command_line.run(argv) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("offsquare: ")
    assert err.endswith(("?\n", ".\n"))
    assert err.count("\n") == 1
    assert "Traceback" not in err
    return err


SPOILT = [
    (newer, "was saved by a newer Offsquare (its version is 99, this program reads up to 1); update Offsquare"),
    (unknown_key, "the key “lenght” in bridge is not known; did you mean “length”?"),
    (text_for_a_number, "frets.count: a whole number belongs here, not the text “twenty”"),
    (text_for_a_length, "“wide” is not a length; write it like 643.5, 64,4 cm or 25 11/32 in"),
    (negative_width, "The bridge’s width is -26 mm, but must lie between 5 and 120 mm"),
    (
        scale_too_short,
        "The scale is 6.5 mm, but must lie between 200 and 1500 mm; look at the unit and the decimal point",
    ),
    (same_place, "a distance of 0 puts two points in the same place; read it again"),
    (same_point, "goes from “old.1” to the same point; name two different points"),
    (nut_too_wide, "no instrument’s is under 15 or over 130 mm"),
    (board_too_short, "nut to board end is 44.3 mm; no instrument’s is under 100 or over 1000 mm"),
    (endless_fraction, "“99999999999999999999…” is too long to be a length"),
    (line_break_in_a_key, "the key “two lines☐[31m” in bridge is not known"),
    (against_itself, "Reading “x” sets “nut.left” to “end.left” against itself; name two other points"),
    (off_its_own_straightedge, "reads “end.left” from itself; name another point"),
    (
        side_of_itself,
        "The side hint of point “nut.right” needs a line through two other points, not through “nut.right”",
    ),
    (side_of_one_point, "needs a line through two other points, not through “end.left” and “end.left”"),
    (cutter_for_unknown_work, "sheets.cutters: the key “inlay” is not one of “holes”, “outline”, “slot”, “window”"),
    (cutter_too_wide, "The cutter for slots is 3 in, but must lie between 0.004 and 0.984 in"),
    (unknown_point, "names the point “nut.rihgt”, which is not among the job’s points"),
]


@pytest.mark.parametrize(("spoil", "said"), SPOILT, ids=[spoil.__name__ for spoil, _ in SPOILT])
@pytest.mark.parametrize("command", ["work-out", "export"])
def test_a_spoilt_job_is_refused(
    command: str, spoil: Any, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tree = sample()
    spoil(tree)
    check_refused(command, json.dumps(tree).encode(), said, tmp_path, capsys)


TEXT = json.dumps(sample())


@pytest.mark.parametrize("command", ["work-out", "export"])
@pytest.mark.parametrize(
    ("data", "said"),
    [
        pytest.param(TEXT[:3000], "the file breaks off before its end", id="truncated"),
        pytest.param("\x89PNG\r\n", "the file is not a job file (it is not JSON)", id="foreign"),
        pytest.param('{"type": "FeatureCollection"}', "is not an Offsquare job", id="foreign JSON"),
        pytest.param(
            TEXT.replace('"hand":', '"hand": "left", "hand":'), "the key “hand” stands twice", id="repeated key"
        ),
        pytest.param(
            TEXT.replace('"spread": 37', '"spread": NaN'), "NaN stands at strings.nut.spread, where a number", id="NaN"
        ),
    ],
)
def test_a_spoilt_file_is_refused(
    command: str, data: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    check_refused(command, data.encode(), said, tmp_path, capsys)


def check_refused(command: str, data: bytes, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, folder = tmp_path / "spoilt.job.json", tmp_path / "sheets"
    path.write_bytes(data)
    argv = [command, str(path)] + (["--to", str(folder)] if command == "export" else [])
    assert said in refused(argv, capsys)
    assert path.read_bytes() == data
    assert not folder.exists()


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (unknown_template, "There is no template “placemnt”"),
        (unknown_paper, "The paper “foolscap” is not known"),
        (paper_too_small, "leaves no room between"),
        (no_template, "the job names no template"),
        (slot_past_the_end, "The slot runs 23.0 mm past the bridge’s end"),
        (fret_12_read_as_13, "by the other readings this value is that of fret 12"),
    ],
)
def test_a_job_that_cannot_be_drawn_leaves_nothing(
    spoil: Any, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tree = sample()
    spoil(tree)
    check_refused("export", json.dumps(tree).encode(), said, tmp_path, capsys)


def test_a_folder_that_is_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").touch()
    said = refused(["export", str(samples.find("leaning-neck")), "--to", str(tmp_path / "file" / "sheets")], capsys)
    assert "nothing can be written in" in said
    assert "is a file" in said


def test_a_full_disk_while_exporting(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    folder = tmp_path / "new" / "sheets"
    said = refused(["export", str(samples.find("leaning-neck")), "--to", str(folder)], capsys)
    assert "the disk is full" in said
    assert list(tmp_path.iterdir()) == []


def test_files_from_before_stay_when_an_export_fails(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(samples.find("leaning-neck"))
    assert command_line.run(["export", job, "--to", str(tmp_path), "--only", "pdf"]) == 0
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    capsys.readouterr()
    refused(["export", job, "--to", str(tmp_path), "--template", "placement", "--template", "none"], capsys)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_a_full_disk_while_beginning_a_job(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    assert "the disk is full" in refused(["new", str(tmp_path / "a.job.json")], capsys)
    assert list(tmp_path.iterdir()) == []


def export(*options: str) -> list[str]:
    return ["export", str(samples.find("leaning-neck")), "--to", "sheets", *options]


@pytest.mark.parametrize(
    ("argv", "said"),
    [
        (["work-out"], "the following arguments are required: JOB"),
        (["work-out", "none.job.json"], "none.job.json cannot be read: there is no such file or folder"),
        (["work-out", "."], ". is a folder; name the job file in it"),
        (["export", "x.job.json"], "the following arguments are required: --to"),
        (
            ["export", "x.job.json", "--to", "s", "--only", "pdf,docx"],
            "--only takes some of pdf, dxf, svg, png, not “docx”",
        ),
        (["export", "x.job.json", "--to", "s", "--only", ","], "--only names no kind of file"),
        (export("--margin", "wide"), "--margin: “wide” is not a length; write it like"),
        (export("--margin", "3"), "The sheet’s margin is 3 mm, but must lie between 5 and 40 mm"),
        (export("--ledge", "9"), "The ledge of finish is 9 mm, but must lie between 0 and 5 mm"),
        (export("--pilot", "8"), "The pilot holes of 8 mm are larger than the hole of pin 1, which is 5.2 mm; choose"),
        (export("--pilot", "0.1"), "A template’s pilot hole is 0.1 mm, but must lie between 0.5 and 12 mm"),
        (export("--edge", "99"), "The edge round a template is 99 mm, but must lie between 2 and 50 mm"),
        (export("--edge", "no"), "--edge: “no” is not a length; write it like"),
        (export("--cutter", "inlay=3"), "--cutter takes one for outline, window, slot, holes, not for “inlay”"),
        (export("--cutter", "slot=wide"), "--cutter slot: “wide” is not a length; write it like"),
        (export("--purposes", "cut,paint"), "--purposes takes some of cut, route, drill, "),
        (export("--purposes", ","), "name no purpose; name one at least"),
        (export("--sheets", ","), "--sheets names no sheet; name some, such as A1,A2, or leave it out"),
        (export("--paper", ""), "The paper “” is not known; use one of A0, A1"),
        (
            export("--template", "x" * 5000),
            f"There is no template “{'x' * 40}…{'x' * 15}”; the templates are placement",
        ),
        (export("--sheets", "A9"), "No sheet is called A9; there are placement"),
        (export("--turn", "upright"), "argument --turn: invalid choice"),
        (export("--dxf", "R14"), "argument --dxf: invalid choice"),
        (["exprot", "x.job.json"], "there is no command “exprot”; did you mean “export”?"),
        (["nwe"], "there is no file nwe; if a command was meant: did you mean “new”?"),
        (["none.job.json"], "there is no file none.job.json"),
        (["--verbose"], "unrecognized arguments: --verbose"),
        (["new", "."], "the new job needs a file’s name"),
        (["new", "x" * 300], "the name is too long"),
        (["x" * 300], "cannot be read: the name is too long"),
        (["export", str(samples.find("leaning-neck")), "--to", "x" * 300], "the name is too long"),
        (["work-out", "/dev/null"], "/dev/null is no ordinary file"),
        (["new", "a.job.json", "--list", ""], "there is no measuring list “”; there are: bridge only"),
        (["new", "a.job.json", "--hand", "both"], "argument --hand: invalid choice: 'both'"),
        (["new", "a.job.json", "--strings", "six"], "argument --strings: invalid int value: 'six'"),
    ],
)
def test_a_command_line_that_cannot_be_followed(
    argv: list[str], said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert said in refused(argv, capsys)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no disk that is always full")
@pytest.mark.parametrize("command", [["work-out", str(samples.find("leaning-neck"))], ["--version"]])
def test_a_full_disk_where_the_output_goes(command: list[str]) -> None:
    with Path("/dev/full").open("w") as out:
        ended = subprocess.run(
            [sys.executable, "-m", "app", *command], stdout=out, stderr=subprocess.PIPE, text=True, check=False
        )
    assert ended.stderr == "offsquare: what came of it cannot be printed: the disk is full.\n"
    assert ended.returncode == 2


def test_a_program_without_a_terminal_prints_nothing_and_does_its_work(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "argv", ["offsquare", "work-out", str(samples.find("leaning-neck"))])
    monkeypatch.setattr(sys, "stdout", None)
    with warnings.catch_warnings():
        assert main() == 0


def test_a_printer_nobody_measured(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    argv = ["export", str(samples.find("leaning-neck")), "--to", str(tmp_path), "--printer", "Laser"]
    assert "no correction is kept for the printer “Laser”; kept are: none yet" in refused(argv, capsys)


def test_a_file_that_is_no_job_is_told_of_before_the_window_opens(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "a.txt"
    path.write_text("dear sir")
    assert "the file is not a job file" in refused([str(path)], capsys)


def test_the_message_is_the_readers_own() -> None:
    """The sentence that the window shows is the same one."""
    with pytest.raises(job_file.JobFileError, match="breaks off"):
        job_file.decode(TEXT[:3000].encode())


def test_a_template_named_twice_is_written_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(samples.find("leaning-neck"))
    twice = ["--template", "placement", "--template", "placement"]
    assert command_line.run(["export", job, "--to", str(tmp_path), "--only", "pdf", *twice]) == 0
    assert capsys.readouterr().out == f"{tmp_path / 'placement.pdf'}\n"


def test_a_title_cannot_steer_the_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "a.job.json"
    path.write_text(json.dumps(sample() | {"title": "two\nlines \x1b[31m\u202e"}))
    assert command_line.run(["work-out", str(path)]) == 0
    assert capsys.readouterr().out.splitlines()[0] == "two lines ☐[31m☐"


def test_a_folder_where_a_file_belongs_leaves_nothing_half_moved(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "placement.svg").mkdir()
    said = refused(["export", str(samples.find("leaning-neck")), "--to", str(tmp_path)], capsys)
    assert "“placement.svg” is a folder there" in said
    assert [path.name for path in tmp_path.iterdir()] == ["placement.svg"]


def test_a_link_to_a_file_that_is_gone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    link = tmp_path / "a.job.json"
    link.symlink_to(tmp_path / "gone")
    said = refused(["work-out", str(link)], capsys)
    assert said == f"offsquare: {link} is a link to a file that is gone; look for that file.\n"


def test_a_name_without_end_does_not_bury_its_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "a.job.json"
    path.write_text(json.dumps(sample() | {"hardware": {"a": 1}, "x" * 5000: 1}))
    assert len(refused(["work-out", str(path)], capsys)) <= 320 + len("offsquare: .\n")
    path.write_text(TEXT.replace('["nut.left"', f'["{"n" * 5000}"', 1))
    assert "which is not among the job’s points" in (said := refused(["work-out", str(path)], capsys))
    assert len(said) <= 320 + len("offsquare: .\n")


def test_the_folder_wanted_is_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "sheets").touch()
    said = refused(["export", str(samples.find("leaning-neck")), "--to", str(tmp_path / "sheets")], capsys)
    assert "there is a file of that name, where a folder is needed" in said
