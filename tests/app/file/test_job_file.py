"""Reading and writing job files: what is kept, what is refused and in which words."""

import errno
import hashlib
import json
import os
import stat
from pathlib import Path
from typing import Any

import msgspec
import pytest

from app.file import job_file
from app.file.job_file import JobFileError
from geometry.job import Action, Job, Reading, Strings
from geometry.job.job import VERSION
from geometry.job.sheets import Sheets
from tests.in_one import in_one

GOOD: dict[str, Any] = {
    "offsquare": 1,
    "title": "Invented",
    "points": {"nut.left": {}, "nut.right": {}, "seam.1": {"near": [520, -4]}},
    "readings": [
        {"id": "r1", "kind": "distance", "of": ["nut.left", "nut.right"], "value": "1 11/16 in", "with": "caliper 0.1"},
        {"id": "r2", "kind": "fret", "fret": 12, "on": "right", "value": 322.5, "laid": "A"},
    ],
    "strings": {"list": [{"name": "1", "diameter": "0.012 in"}, {"name": "2"}, {"name": "3"}], "weights": {"12": 2}},
}


def changed(*steps: str | int, to: Any) -> bytes:
    """The good file with one value put in another's place, or added."""
    tree = json.loads(json.dumps(GOOD))
    node = tree
    for step in steps[:-1]:
        node = node[step]
    node[steps[-1]] = to
    return json.dumps(tree).encode()


def refused(data: bytes) -> str:
    with pytest.raises(JobFileError) as caught:
        job_file.decode(data, "x.job.json")
    said = str(caught.value)
    assert "\n" not in said
    return said


def test_what_was_typed_is_what_is_kept() -> None:
    job = job_file.decode(json.dumps(GOOD).encode())
    again = json.loads(job_file.encode(job))
    assert again["readings"][0]["value"] == "1 11/16 in"
    assert again["readings"][1]["value"] == 322.5
    assert again["strings"]["list"][0]["diameter"] == "0.012 in"


def test_renamed_keys_are_written_as_the_file_has_them() -> None:
    side = {"of": ["nut.left", "nut.right"], "is": "right"}
    job = job_file.decode(changed("points", "seam.1", "side", to=[side]))
    tree = json.loads(job_file.encode(job))
    assert tree["points"]["seam.1"]["side"] == [side]
    assert tree["readings"][0]["with"] == "caliper 0.1"
    off = Reading(id="r", kind="off", of=("c",), from_=("a", "b"), side="left", value=3.0)
    assert json.loads(
        job_file.encode(
            Job(points={n: msgspec.convert({}, type(job.points["seam.1"])) for n in "abc"}, readings=(off,))
        )
    )["readings"][0]["from"] == ["a", "b"]


def test_one_reading_stands_on_one_line() -> None:
    text = job_file.encode(job_file.decode(json.dumps(GOOD).encode())).decode()
    assert '  {"id": "r2", "kind": "fret", "fret": 12, "on": "right", "value": 322.5, "laid": "A"}' in text.splitlines()


def test_the_head_is_written_even_where_it_says_nothing_unusual() -> None:
    assert job_file.encode(Job()) == b'{\n "offsquare": 1,\n "title": "",\n "unit": "mm",\n "hand": "right"\n}\n'


def test_a_block_that_is_begun_with_nothing_said_stays_begun() -> None:
    job = Job(strings=Strings())
    assert job_file.decode(job_file.encode(job)) == job


def test_fingerprint_is_the_sha_256_of_the_canonical_text_without_name_and_paper() -> None:
    job = job_file.decode(json.dumps(GOOD).encode())
    bare = msgspec.structs.replace(job, title="", note="", sheets=Sheets())
    bare = msgspec.structs.replace(bare, readings=tuple(msgspec.structs.replace(r, note="") for r in bare.readings))
    kept = msgspec.structs.replace(job, sheets=Sheets(templates=("job-sheet",), paper="A3"))
    digest = hashlib.sha256(job_file.encode(bare)).hexdigest().upper()
    assert job_file.fingerprint(kept) == f"{digest[:4]}-{digest[4:6]}"


PAPER: list[dict[str, Any]] = [
    {"templates": ("placement", "job-sheet")},
    {"paper": "Letter"},
    {"turn": "landscape"},
    {"margin": 12.0},
    {"text": "outlines"},
    {"dxf": "R12"},
    {"arcs": "chords"},
    {"purposes": ("cut",)},
]


@pytest.mark.parametrize("change", PAPER)
def test_what_moves_no_line_leaves_the_fingerprint(change: dict[str, Any]) -> None:
    job = job_file.decode(json.dumps(GOOD).encode())
    ticked = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **change))
    assert ticked != job
    assert job_file.fingerprint(ticked) == job_file.fingerprint(job)


TOOLS: list[dict[str, Any]] = [
    {"kerf": 0.3},
    {"cutter": 3.0},
    {"cutters": {"holes": 2.0}},
    {"window": True},
    {"edge": None},
    {"pilot": 2.0},
    {"pin_holes": "finished"},
    {"datum": "saddle centre"},
    {"ledge": 1.2},
    {"turning": True},
    {"stock": (300, 120)},
    {"grain": "along width"},
]


@in_one("change", TOOLS)
def test_what_moves_a_line_changes_the_fingerprint(change: dict[str, Any]) -> None:
    job = job_file.decode(json.dumps(GOOD).encode())
    moved = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **change))
    assert job_file.fingerprint(moved) != job_file.fingerprint(job)


def test_every_key_of_the_sheets_is_judged() -> None:
    judged = {key for change in (*PAPER, *TOOLS) for key in change}
    assert judged == set(Sheets.__struct_fields__)
    assert {key for change in PAPER for key in change} == set(job_file.ONLY_PAPER)


def test_a_name_moves_no_line_but_a_reading_does() -> None:
    job = job_file.decode(json.dumps(GOOD).encode())
    assert job_file.fingerprint(msgspec.structs.replace(job, title="Other", note="n")) == job_file.fingerprint(job)
    assert job_file.fingerprint(msgspec.structs.replace(job, bridge_off=True)) == job_file.fingerprint(job)
    struck = tuple(msgspec.structs.replace(r, struck=True, why="slip") for r in job.readings)
    assert job_file.fingerprint(msgspec.structs.replace(job, readings=struck)) != job_file.fingerprint(job)


def test_fingerprint_does_not_hang_on_how_the_file_was_spaced() -> None:
    tight = json.dumps(GOOD, separators=(",", ":")).encode()
    loose = json.dumps(GOOD, indent=4).encode()
    assert job_file.fingerprint(job_file.decode(tight)) == job_file.fingerprint(job_file.decode(loose))


def test_a_mark_before_the_first_character_is_passed_over() -> None:
    assert job_file.decode(b"\xef\xbb\xbf" + json.dumps(GOOD).encode()).title == "Invented"


WHOLE = json.dumps(GOOD)


@in_one(
    ("data", "said"),
    [
        (b"", "the file is empty"),
        (WHOLE[:200].encode(), "the file breaks off before its end; look for a whole copy of it"),
        (WHOLE[:-1].encode(), "the file breaks off before its end; look for a whole copy of it"),
        (b"%PDF-1.4", "the file is not a job file (it is not JSON)"),
        (b'{"offsquare": 1,, }', "the file is not proper JSON at line 1, character 17; mend it there"),
        (
            WHOLE.replace('"title"', '"title": "", "title"').encode(),
            "the key “title” stands twice; take one of them out",
        ),
        (
            WHOLE.replace('"fret": 12', '"fret": 12, "fret": 13').encode(),
            "the key “fret” stands twice in readings, 2nd reading; take one of them out",
        ),
        (
            WHOLE.replace("322.5", "NaN").encode(),
            "NaN stands at readings, 2nd reading, value, where a number belongs; write the number, or null for none",
        ),
        (
            WHOLE.replace("322.5", "-Infinity").encode(),
            "Infinity stands at readings, 2nd reading, value, where a number belongs; write the number, or null for "
            "none",
        ),
        (
            WHOLE.replace("322.5", "1e999").encode(),
            "the number 1e999 at readings, 2nd reading, value is too large for any use; write it again",
        ),
        (
            WHOLE.replace("322.5", "9" * 5000).encode(),
            "the number 99999999999999999999… at readings, 2nd reading, value is too large for any use; write it again",
        ),
        (
            b'{"offsquare": 1, "title": "\\ud800"}',
            "the text at title holds half a character; write it again",
        ),
        (b"[" * 5000, "the file nests too deeply to be a job; look for a whole copy of it"),
        (
            b'{"offsquare": 1, "title": ' + b"[" * 60 + b"]" * 60 + b"}",
            "the file nests too deeply to be a job; look for a whole copy of it",
        ),
        (changed("offsquare", to=0), "“offsquare” should be the file’s version, a whole number such as 1"),
        (changed("offsquare", to=True), "“offsquare” should be the file’s version, a whole number such as 1"),
        (
            changed("readings", 0, "vlaue", to=3),
            "the key “vlaue” in readings, 1st reading is not known; did you mean “value”?",
        ),
        (changed("titel", to="x"), "the key “titel” is not known; did you mean “title”?"),
        (
            changed("strings", "list", 2, "diameter", to=True),
            "strings.list, 3rd string, diameter: a length (a number of mm, or text with its unit like “1/16 in”) "
            "belongs here, not true",
        ),
        (
            changed("strings", "list", 2, "diameter", to="thick"),
            "String 3, the diameter: “thick” is not a length; write it like 643.5, 64,4 cm or 25 11/32 in",
        ),
        (changed("frets", to={"count": "twenty"}), "frets.count: a whole number belongs here, not the text “twenty”"),
        (changed("hand", to="rigth"), "hand: “rigth” is not one of “left”, “right”"),
        (
            changed("points", "seam.1", "near", to=[1]),
            "points, seam.1, near: a list of 2 values belongs here, but it has 1",
        ),
        (
            changed("points", "seam.1", "near", to=[1, "x"]),
            "points, seam.1: near y: “x” is not a length; write it like 643.5, 64,4 cm or 25 11/32 in",
        ),
        (changed("saddle", to=[]), "saddle: a block in braces {…} belongs here, not a list"),
        (changed("strings", "weights", to={"x": 1}), "strings.weights: the key “x” should be a whole number"),
        (changed("strings", "list", 0, "name", to=None), "strings.list, 1st string, name: text belongs here, not null"),
        (changed("readings", 0, to={"kind": "inline"}), "readings, 1st reading: the key “id” is missing"),
        (changed("strings", "compensation", to="much"), "strings.compensation: “much” is not one of “worked out”"),
        (
            changed("strings", "saddle", to={"spread": 3}),
            "strings.saddle: The outer strings’ spread is 3 mm, but must lie between 5 and 200 mm; look at the unit "
            "and the decimal point",
        ),
        (
            changed("strings", "nut", to={"spread": 3}),
            "strings.nut: The outer strings’ spread is 3 mm, but must lie between 5 and 200 mm; look at the unit and "
            "the decimal point",
        ),
        (
            changed("strings", "heard", to=[{"string": "1", "cents": 0, "trial": "1", "fret": 40}]),
            "strings.heard, 1st entry: The fret that string 1 was heard at is 40, but must lie between 1 and 36; mend "
            "the number",
        ),
    ],
)
def test_what_is_wrong_is_said_with_its_place(data: bytes, said: str) -> None:
    assert refused(data) == f"x.job.json: {said}"


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"\xff\xfe{\x00", "x.job.json is written in UTF-16; save it as UTF-8"),
        (b'{"title": "\xe9"}', "x.job.json is not a job file, or was saved in another encoding; save it as UTF-8"),
        (b'{"width": 3}', "x.job.json is not an Offsquare job: it does not say “offsquare”: 1"),
        (b"[1, 2]", "x.job.json is not an Offsquare job: it does not say “offsquare”: 1"),
        (
            changed("offsquare", to=VERSION + 1),
            f"x.job.json was saved by a newer Offsquare (its version is {VERSION + 1}, this program reads up to "
            f"{VERSION}); update Offsquare to open it",
        ),
    ],
)
def test_a_foreign_file_is_told_as_such(data: bytes, said: str) -> None:
    assert refused(data) == said


def test_a_refusal_inside_the_job_names_the_reading() -> None:
    said = refused(changed("readings", 0, "of", to=["nut.left", "nut.rihgt"]))
    assert said.startswith("x.job.json: Reading “r1” names the point “nut.rihgt”")


def test_an_older_version_is_brought_up_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(job_file, "VERSION", 3)
    steps = {
        1: lambda tree: {**tree, "title": tree["name"]},
        2: lambda tree: {k: v for k, v in tree.items() if k != "name"},
    }
    monkeypatch.setattr(job_file, "MIGRATIONS", steps)
    job = job_file.decode(b'{"offsquare": 1, "name": "old"}')
    assert (job.title, job.offsquare) == ("old", 3)


def test_a_folder_is_not_a_file(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match="is a folder; name the job file in it"):
        job_file.read(tmp_path)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match="cannot be read: there is no such file or folder"):
        job_file.read(tmp_path / "none.job.json")


def test_a_file_too_large_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "big.job.json"
    with path.open("wb") as file:
        file.truncate(job_file.LARGEST + 1)
    with pytest.raises(JobFileError, match=r"big.job.json is too large to be a job file \(8 MB\)"):
        job_file.read(path)


def test_an_old_file_keeps_its_permissions(tmp_path: Path) -> None:
    path = tmp_path / "a.job.json"
    path.write_bytes(b"old")
    path.chmod(0o640)
    job_file.write(Job(title="new"), path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert job_file.read(path).title == "new"


def test_a_new_file_gets_the_permissions_the_account_gives(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.touch()
    job_file.write(Job(), tmp_path / "a.job.json")
    assert (tmp_path / "a.job.json").stat().st_mode == plain.stat().st_mode


def test_a_link_keeps_pointing_where_it_did(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    real = tmp_path / "real" / "a.job.json"
    real.write_bytes(b"old")
    link = tmp_path / "a.job.json"
    link.symlink_to(real)
    job_file.write(Job(title="new"), link)
    assert link.is_symlink()
    assert job_file.read(real).title == "new"


def test_a_write_protected_file_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "a.job.json"
    path.write_bytes(b"old")
    path.chmod(0o444)
    with pytest.raises(JobFileError, match="cannot be written: it is write-protected"):
        job_file.write(Job(), path)
    assert path.read_bytes() == b"old"


@pytest.mark.parametrize("call", ["write", "fsync", "replace"])
def test_a_full_disk_leaves_the_old_file_whole(call: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.job.json"
    job_file.write(Job(title="old"), path)
    before = path.read_bytes()

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    if call == "write":
        monkeypatch.setattr(Path, "open", full)
    else:
        monkeypatch.setattr(*((os, "fsync", full) if call == "fsync" else (Path, "replace", full)))
    with pytest.raises(JobFileError, match="cannot be written: the disk is full"):
        job_file.write(Job(title="new"), path)
    monkeypatch.undo()
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_a_text_with_half_a_character_is_refused_before_the_file_is_touched(tmp_path: Path) -> None:
    path = tmp_path / "a.job.json"
    with pytest.raises(JobFileError, match="half a character"):
        job_file.write(Job(title="\ud800"), path)
    assert not path.exists()


def test_half_given_heights_a_thickness_a_side_and_pairs_are_kept_as_typed() -> None:
    data = changed("strings", "action", to={"fret1": [None, 0.5], "fret12": ["3/32 in", None]})
    tree = json.loads(data)
    tree["strings"]["saddle"] = {"spread": 58, "pair": "1/8 in"}
    tree["bridge"] = {"thickness": [None, 9.2]}
    job = job_file.decode(json.dumps(tree).encode())
    assert job.strings is not None
    assert job.strings.action == Action(fret1=(None, 0.5), fret12=("3/32 in", None))
    assert job.bridge is not None
    assert job.bridge.thicknesses == (None, 9.2)
    again = json.loads(job_file.encode(job))
    assert again["strings"]["action"] == {"fret1": [None, 0.5], "fret12": ["3/32 in", None]}
    assert again["strings"]["saddle"] == {"spread": 58, "pair": "1/8 in"}
    assert again["bridge"]["thickness"] == [None, 9.2]


def test_one_thickness_stands_for_both_sides() -> None:
    job = job_file.decode(changed("bridge", to={"thickness": "3/8 in"}))
    assert job.bridge is not None
    assert job.bridge.thicknesses == ("3/8 in", "3/8 in")
