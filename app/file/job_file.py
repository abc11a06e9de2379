"""The job file: one job, in canonical text, read with care and written whole or not at all.

The **fingerprint** is the SHA-256 of what in the job moves a line, a hole or a number of the layout, as canonical text.
Its short form, like `4F2A-91`, is printed on every template and job sheet so that paper and file can be matched.
"""

import os
import time
import zlib
from collections.abc import Callable
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any

import msgspec

from app.file import job_text, why_no_job
from app.say import terminal
from export import files
from geometry.job import Job
from geometry.job.job import VERSION
from geometry.job.sheets import Sheets

SUFFIX = ".job.json"
LARGEST = 8_000_000
"""Bytes; a job of a thousand readings takes about 150,000."""

ALWAYS = ("offsquare", "title", "unit", "hand")
"""What stands at the head of every file, even where it says nothing unusual."""

ONLY_PAPER = ("paper", "turn", "margin", "templates", "text", "dxf", "arcs", "purposes")
"""What of the sheets says on what they are printed, which of them, and how files are spelled: it moves no line."""

MIGRATIONS: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {}
"""Version n to n + 1: a function that takes the whole tree and gives it back in the next version's form."""


class JobFileError(Exception):
    """A job file that cannot be read or written; the message is one short sentence for the person."""

    def __init__(self, sentence: str) -> None:
        super().__init__(terminal.shortened(terminal.one_line(sentence)))


class Seen(msgspec.Struct, frozen=True):
    """How a file was when it was last read or written: its size with a checksum (CRC-32), and its time (s since the
    epoch). It tells whether another program has been at the file, not who.
    """

    digest: str
    when: float


def read(path: Path) -> Job:
    """Read a job file. Raises `JobFileError`."""
    return load(path)[0]


def load(path: Path) -> tuple[Job, Seen]:
    """Read a job file, and how it was then. Raises `JobFileError`."""
    data, when = _bytes(path)
    return decode(data, path.name), _seen(data, when)


def look(path: Path) -> Seen | None:
    """How a file is now; None where there is none, or it cannot be read."""
    try:
        return _seen(*_bytes(path))
    except JobFileError:
        return None


def _seen(data: bytes, when: float) -> Seen:
    return Seen(f"{len(data)}-{zlib.crc32(data):08x}", when)


def _bytes(path: Path) -> tuple[bytes, float]:
    """A file's bytes and its time. Raises `JobFileError`."""
    try:
        if path.is_dir():
            raise JobFileError(f"{path} is a folder; name the job file in it")
        if path.exists() and not path.is_file():
            raise JobFileError(f"{path} is no ordinary file; name a job file")
        if path.stat().st_size > LARGEST:
            size = f"{path.stat().st_size / 1e6:.0f} MB"
            raise JobFileError(f"{path.name} is too large to be a job file ({size}); check whether it is the right one")
        when = path.stat().st_mtime
        return path.read_bytes(), when
    except OSError as error:
        if isinstance(error, FileNotFoundError) and path.is_symlink():
            raise JobFileError(f"{path} is a link to a file that is gone; look for that file") from None
        raise JobFileError(f"{path} cannot be read: {files.why(error)}") from None


def decode(data: bytes, name: str = "the job") -> Job:
    """Make a job of a file's bytes; `name` is what messages call the file. Raises `JobFileError`."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise JobFileError(f"{name} is written in UTF-16; save it as UTF-8")
    try:
        text = data.decode("utf-8-sig")  # some editors put a mark before the first character; it says nothing
    except UnicodeDecodeError:
        raise JobFileError(f"{name} is not a job file, or was saved in another encoding; save it as UTF-8") from None
    try:
        tree = job_text.parse(text)
    except job_text.NotReadable as error:
        raise JobFileError(f"{name}: {error}") from None
    tree = _this_version(tree, name)
    try:
        return msgspec.convert(tree, Job, str_keys=True)
    except msgspec.ValidationError as error:
        raise JobFileError(f"{name}: {why_no_job.explain(tree) or error}") from None


def encode(job: Job) -> bytes:
    """The canonical text of a job, as bytes. Raises `JobFileError` where a text holds half a character."""
    head = {key: getattr(job, key) for key in ALWAYS}
    try:
        return job_text.canonical(head | _said(job)).encode()
    except UnicodeEncodeError:
        raise JobFileError("A text in the job holds half a character; write that text again") from None


def write(job: Job, path: Path) -> Seen:
    """Write a job file whole or not at all; an old file keeps its permissions. Raises `JobFileError`."""
    data = encode(job)
    try:
        files.replace(path, data)
    except OSError as error:
        raise JobFileError(f"{path} cannot be written: {files.why(error)}; choose another place") from None
    return _seen(data, time.time())


def named(path: Path) -> Path:
    """The same under a name that ends as job files do: `a`, `a.json` and `J. Smith` get the ending, in full."""
    name = path.name
    if name.lower().endswith(SUFFIX):
        return path
    for ending in (".json", ".job"):
        if name.lower().endswith(ending) and name.lower() != ending:
            name = name[: -len(ending)]
    return path.with_name(name + SUFFIX)


def name_for(called: str) -> str:
    """A file's name for a job that is called so: `Untitled job` becomes `Untitled.job.json`, which says it once."""
    called = called.strip()
    return files.safe_name(called[:-4] if called.lower().endswith(" job") else called) + SUFFIX


def free_beside(path: Path) -> Path:
    """A name beside the file that no file has: `a 2.job.json`, `a 3.job.json`."""
    stem = name_of(named(path))
    return next(free for n in count(2) if not os.path.lexists(free := path.with_name(f"{stem} {n}{SUFFIX}")))


def name_of(path: Path) -> str:
    """What a job's file is called, without its ending."""
    return path.name.removesuffix(SUFFIX)


def titled(job: Job, path: Path | None) -> Job:
    """The job under its file's name where it has no title of its own; for paper, never to be saved."""
    return job if job.title or path is None else msgspec.structs.replace(job, title=name_of(path))


def fingerprint(job: Job) -> str:
    """The short fingerprint, like `4F2A-91`: the first six figures of the SHA-256 of the canonical text of the job
    without its name, its notes, its proof, `ONLY_PAPER` and whether the old bridge is off.
    """
    import hashlib  # it brings a large library along, and a job is shown without

    found = hashlib.sha256(encode(_what_moves(job))).hexdigest().upper()
    return f"{found[:4]}-{found[4:6]}"


def _what_moves(job: Job) -> Job:
    """The job without what moves no line, no hole and no number of its layout; kept placements are only looked at."""
    readings = tuple(msgspec.structs.replace(r, note="") if r.note else r for r in job.readings)
    strings = job.strings and msgspec.structs.replace(job.strings, typed_for=None)
    bare = msgspec.structs.replace(on_plain_paper(job), title="", note="", readings=readings, strings=strings)
    return msgspec.structs.replace(bare, bridge_off=None, kept=(), proof=())


def on_plain_paper(job: Job) -> Job:
    """The job without its choice of templates, of paper and of how files are spelled."""
    plain = Sheets()
    usual = {key: getattr(plain, key) for key in ONLY_PAPER}
    return msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **usual))


def _said(value: Any) -> Any:
    """Plain values, without what equals a record's default. (The library's own way of leaving defaults out compares
    texts by identity, so that equal jobs could come out unequal.)
    """
    if isinstance(value, msgspec.Struct):
        named = ((name, getattr(value, attribute), default) for name, attribute, default in _fields(type(value)))
        return {name: _said(of) for name, of, default in named if of != default}
    if isinstance(value, dict):
        return {str(key): _said(of) for key, of in value.items()}
    return [_said(of) for of in value] if isinstance(value, (list, tuple)) else value


@cache
def _fields(record: type[msgspec.Struct]) -> tuple[tuple[str, str, Any], ...]:
    """A record's keys in the file, its attributes and their defaults."""
    return tuple(
        (
            field.encode_name,
            field.name,
            field.default if field.default_factory is msgspec.NODEFAULT else field.default_factory(),
        )
        for field in msgspec.structs.fields(record)
    )


def _this_version(tree: Any, name: str) -> Any:
    if not isinstance(tree, dict) or "offsquare" not in tree:
        raise JobFileError(f"{name} is not an Offsquare job: it does not say “offsquare”: {VERSION}")
    version = tree["offsquare"]
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise JobFileError(f"{name}: “offsquare” should be the file’s version, a whole number such as {VERSION}")
    if version > VERSION:
        raise JobFileError(
            f"{name} was saved by a newer Offsquare (its version is {version}, this program reads up to {VERSION}); "
            "update Offsquare to open it"
        )
    while version < VERSION:
        tree = {**MIGRATIONS[version](tree), "offsquare": version + 1}
        version += 1
    return tree
