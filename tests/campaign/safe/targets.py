"""Exports, jobs and settings written where it goes wrong: full, locked, protected, vanishing, taken by a folder.

Whatever happens, every old file is whole and in its place or every new one is, what is said is what was done, and
nothing else is left lying there.
"""

import contextlib
import errno
import os
import random
import shutil
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from unittest import mock

import msgspec

from app.file import export_job, job_file, samples, settings
from app.file.settings import Settings
from export import FILE_KINDS
from export.correction import CheckSheet
from export.paper import pdf, png
from export.records import Sheet
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.campaign.safe.outcome import Outcome, repeat

TEMPLATES = ("bridge", "nut-slots", "check-sheet")
"""Small ones: three PDF, two DXF, two SVG."""
State = dict[str, bytes | None]


def run(count: int, seed: int) -> Outcome:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    with drawn_once():
        return repeat(lambda chance, counted: one(chance, counted, job, layout), count, seed)


@contextlib.contextmanager
def drawn_once() -> Iterator[None]:
    """Sheets of one job are made into files' bytes once, not for each try: how these are written is what is tried."""
    kept: dict[tuple[str, ...], bytes] = {}
    as_pdf, as_png = pdf.data, png.data

    def pages(sheets: Sequence[Sheet], title: str = "", mark: str = "") -> bytes:
        key = ("pdf", title, mark, *(sheet.name for sheet in sheets))
        if key not in kept:
            kept[key] = as_pdf(sheets, title, mark)
        return kept[key]

    def picture(sheet: Sheet, title: str = "", mark: str = "") -> bytes:
        key = ("png", title, mark, sheet.name)
        if key not in kept:
            kept[key] = as_png(sheet, title, mark)
        return kept[key]

    with mock.patch.object(pdf, "data", pages), mock.patch.object(png, "data", picture):
        yield


def one(chance: random.Random, counted: Counter[str], job: Job, layout: Layout) -> None:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "sheets"
        before = furnished(folder, chance)
        fault = chance.choice((full, grown, locked, protected, vanishing, taken, nothing))
        with fault(folder, chance):
            said = written(job, layout, folder)
        after = state(folder)
        if said is None:
            counted[f"written though {fault.__name__}"] += 1
            assert not any(data == b"old" for name, data in after.items() if name in NAMES), "an old file is among them"
            assert set(NAMES) <= set(after), "a file is missing"
        elif folder.exists() or before:
            counted[f"refused: {fault.__name__}"] += 1
            assert said, "nothing is said"
            if fault is not vanishing:
                assert after == before | ({name: None for name in after if after[name] is None}), "not as it was before"
        assert not [name for name in after if name.startswith(".offsquare")], "something was left lying there"
        whole_or_not(Path(place), chance, counted)


NAMES = ("bridge.pdf", "bridge.dxf", "bridge.svg", "nut-slots.pdf", "nut-slots.dxf", "nut-slots.svg", "check-sheet.pdf")


def furnished(folder: Path, chance: random.Random) -> State:
    """A folder with some old files of these names, and one of another."""
    if chance.random() < 0.2:
        return {}
    folder.mkdir()
    for name in chance.sample(NAMES, chance.randrange(len(NAMES) + 1)):
        (folder / name).write_bytes(b"old")
    (folder / "my own notes.txt").write_bytes(b"old")
    return state(folder)


def state(folder: Path) -> State:
    """What is in a folder: a file's bytes, None for a folder."""
    if not folder.is_dir():
        return {}
    return {path.name: path.read_bytes() if path.is_file() else None for path in folder.iterdir()}


def written(job: Job, layout: Layout, folder: Path) -> str | None:
    """Export; None, or the sentence that says why not."""
    stamp = msgspec.structs.replace(export_job.stamp(job, "0000-00"), templates=TEMPLATES)
    try:
        export_job.export(job, layout, stamp, folder, FILE_KINDS, replace="all", left_out=lambda _: None)
    except export_job.NotExported as error:
        return str(error)
    return None


# what goes wrong


@contextlib.contextmanager
def nothing(_folder: Path, _chance: random.Random) -> Iterator[None]:
    yield


@contextlib.contextmanager
def full(_folder: Path, chance: random.Random) -> Iterator[None]:
    """A disk that is full from the so-manyeth file on."""
    left = [chance.randrange(9)]
    sync = os.fsync

    def fsync(handle: int) -> None:
        left[0] -= 1
        if left[0] < 0:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        sync(handle)

    with mock.patch("os.fsync", fsync):
        yield


@contextlib.contextmanager
def grown(_folder: Path, chance: random.Random) -> Iterator[None]:
    """No file may grow beyond a size: the system itself refuses, in the middle of a file."""
    try:
        import resource
    except ImportError:  # not on Windows
        yield
        return
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (chance.randrange(1, 60_000), before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@contextlib.contextmanager
def locked(_folder: Path, chance: random.Random) -> Iterator[None]:
    """Some files let nothing take their place, as where another program has them open on Windows."""
    names = chance.sample(NAMES, chance.choice((1, 1, 2)))
    replace = Path.replace

    def refuse(self: Path, target: Path) -> Path:
        if Path(target).name in names and not Path(target).parent.name.startswith(".") and self.parent.name != "before":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(self))
        return replace(self, target)

    with mock.patch.object(Path, "replace", refuse):
        yield


@contextlib.contextmanager
def protected(folder: Path, chance: random.Random) -> Iterator[None]:
    """One of the old files is write-protected."""
    there = sorted(folder.glob("*.*f")) if folder.is_dir() else []
    if there:
        chance.choice(there).chmod(0o444)
    yield


@contextlib.contextmanager
def vanishing(folder: Path, chance: random.Random) -> Iterator[None]:
    """The folder goes away in the midst of it, as a stick that is pulled out."""
    left = [chance.randrange(9)]
    sync = os.fsync

    def fsync(handle: int) -> None:
        sync(handle)
        left[0] -= 1
        if left[0] == 0:
            shutil.rmtree(folder, ignore_errors=True)

    with mock.patch("os.fsync", fsync):
        yield


@contextlib.contextmanager
def taken(folder: Path, chance: random.Random) -> Iterator[None]:
    """A folder, or a link that leads nowhere, has the name of one of the files."""
    name = folder / chance.choice(NAMES)
    if folder.is_dir() and not name.exists():
        if chance.random() < 0.5:
            name.mkdir()
        else:
            name.symlink_to(folder / "gone")
    yield


def whole_or_not(folder: Path, chance: random.Random, counted: Counter[str]) -> None:
    """A job file and the settings on a full disk: the old one or the new one, whole."""
    path = folder / "a.job.json"
    old, new = Job(title="old"), Job(title="new " * chance.randrange(9000))
    job_file.write(old, path)
    with mock.patch.dict(os.environ, OFFSQUARE_SETTINGS=str(folder / "settings.json")):
        known = Settings().with_printer("Laser", CheckSheet(across=181.82, up=180.0))
        assert settings.save(known)
        with chance.choice((full, grown))(folder, chance):
            saved = True
            try:
                job_file.write(new, path)
            except job_file.JobFileError:
                saved = False
            kept = settings.save(known.with_printer("Ink", CheckSheet(across=178.22, up=180.0)), known)
        assert job_file.read(path) == (new if saved else old), "the job file is neither the old nor the new one"
        assert set(settings.load().printers) == ({"Laser", "Ink"} if kept else {"Laser"}), "a correction is lost"
    counted["jobs saved" if saved else "jobs refused"] += 1
