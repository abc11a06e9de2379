"""A disk that is really full: a small one in memory, filled up to chance, written to by exports, jobs and settings.

It needs the right to mount (Linux, root). Where that is missing nothing is tried, and that is said.
"""

import os
import random
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from unittest import mock

from app.file import job_file, samples, settings
from app.file.settings import Settings
from export.correction import CheckSheet
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.campaign.safe.outcome import Outcome, repeat
from tests.campaign.safe.targets import NAMES, drawn_once, furnished, state, written

SIZE = 1536
"""KiB; the sheets of the three small templates take about 600, once, and twice while the old ones stand."""


def run(count: int, seed: int) -> Outcome:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    with tempfile.TemporaryDirectory() as place, mounted(Path(place)) as disk, drawn_once():
        if disk is None:
            return Outcome(0, (), Counter({"disks (nothing was tried: no right to mount)": 0}))
        return repeat(lambda chance, counted: one(chance, counted, disk, job, layout), count, seed)


@contextmanager
def mounted(place: Path) -> Iterator[Path | None]:
    """A small disk at that place; None where none can be had."""
    words = ["mount", "-t", "tmpfs", "-o", f"size={SIZE}k", "tmpfs", str(place)]
    if sys.platform != "linux" or os.geteuid() != 0 or subprocess.run(words, capture_output=True).returncode:
        yield None
        return
    try:
        yield place
    finally:
        subprocess.run(["umount", str(place)], check=True, capture_output=True)


def one(chance: random.Random, counted: Counter[str], disk: Path, job: Job, layout: Layout) -> None:
    folder, path, ballast = disk / "sheets", disk / "a.job.json", disk / "ballast"
    old, new = Job(title="old"), Job(title="new " * chance.randrange(9000))
    with mock.patch.dict(os.environ, OFFSQUARE_SETTINGS=str(disk / "settings.json")):
        known = Settings().with_printer("Laser", CheckSheet(across=181.82, up=180.0))
        assert settings.save(known)
        job_file.write(old, path)
        before = furnished(folder, chance)
        try:
            ballast.write_bytes(b"x" * chance.randrange(SIZE * 1024))
        except OSError:
            counted["filled to the last byte"] += 1
        try:
            said = written(job, layout, folder)
            assert _told_truly(said, before, state(folder)), f"not as it was said: {said}"
            saved = _saved(new, path)
            assert job_file.read(path) == (new if saved else old), "the job file is neither the old nor the new one"
            kept = settings.save(known.with_printer("Ink", CheckSheet(across=178.22, up=180.0)), known)
            assert set(settings.load().printers) == ({"Laser", "Ink"} if kept else {"Laser"}), "a correction is lost"
            counted["exports refused" if said else "exports written"] += 1
            counted["jobs saved" if saved else "jobs refused"] += 1
            assert not [name for name in state(disk) if name.startswith(".offsquare")], "something was left lying there"
        finally:
            for left in sorted(disk.rglob("*"), reverse=True):
                left.rmdir() if left.is_dir() else left.unlink()


def _told_truly(said: str | None, before: dict[str, bytes | None], after: dict[str, bytes | None]) -> bool:
    if said is not None:
        return after == before and "the disk is full" in said
    return set(NAMES) <= set(after) and not any(after[name] in (b"old", b"") for name in NAMES)


def _saved(job: Job, path: Path) -> bool:
    try:
        job_file.write(job, path)
    except job_file.JobFileError as error:
        if "the disk is full" not in str(error):
            raise
        return False
    return True
