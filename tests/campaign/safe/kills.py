"""The program killed at any moment of editing and saving: the job file stays whole, and no more than 2 s are lost.

Each edit writes the time at which it was begun into the job's title, so that file and copy say how far they go. In four
programs of ten the layout takes half a second to three, all of which the window is busy.
"""

import contextlib
import os
import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from app.file import job_file, samples
from tests.campaign.safe.outcome import Outcome, repeat

LONGEST = 2.0
"""Seconds of work that a crash may lose: what the guide promises."""
AT_WORK = """
import os, random, sys, time
from pathlib import Path
from PySide6.QtCore import QTimer
from app.edit import edits
from app.desk.frame import window

chance = random.Random(sys.argv[2])

class Frame(window.Frame):
    def furnish(self):
        super().furnish()
        if chance.random() < 0.4:  # as on a slow machine, or with a job of very many readings
            document, lasts = self.desk.document, chance.uniform(0.5, 3.0)
            lay_places = document._lay_places

            def slow(job):
                end = time.time() + lasts
                while time.time() < end:
                    sum(range(500))
                return lay_places(job)

            document._lay_places = slow
        QTimer.singleShot(0, self.work)

    def work(self):
        document = self.desk.document
        if chance.random() < 0.1 and not document.saved:
            self.desk.job_files.save()
            print("saved", document.job.title, flush=True)
        else:
            title = repr(time.time())
            print("edit", title, flush=True)
            document.edit("title", edits.replace(document.job, title=title))
            if chance.random() < 0.5:
                reading = chance.choice(document.job.readings)
                document.edit("struck", edits.strike(document.job, reading.id))
        QTimer.singleShot(chance.choice((0, 5, 30, 200, 900)), self.work)

window.Frame = Frame
window.run(Path(sys.argv[1]))
"""


def run(count: int, seed: int) -> Outcome:
    worst: list[float] = []
    outcome = repeat(lambda chance, counted: one(chance, counted, worst), count, seed)
    outcome.counted["ms lost at worst"] = round(1000 * max(worst, default=0.0))
    return outcome


def one(chance: random.Random, counted: Counter[str], worst: list[float]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path, settings = Path(folder) / "bench.job.json", Path(folder) / "settings" / "settings.json"
        job_file.write(job_file.read(chance.choice(samples.paths())), path)
        ended, told = killed(path, settings, chance)
        edited = [float(line.split()[1]) for line in told if line.startswith("edit")]
        saved = [float(line.split()[1]) for line in told if line.startswith("saved")]
        in_file = _time_of(path)  # raises where the file is not whole
        assert in_file >= max(saved, default=0.0), "the file is older than the last save"
        copies = [_time_of(copy) for copy in settings.parent.glob("recovery/*.json")]
        assert len(copies) <= 1, "two copies of one window"
        kept = max(in_file, *copies, 0.0)
        lost = ended - min((when for when in edited if when > kept), default=ended)
        worst.append(lost)
        counted["edits"] += len(edited)
        counted["saves"] += len(saved)
        counted["killed with a copy"] += len(copies)
        assert lost < LONGEST, f"{lost:.2f} s of work are lost"


def killed(path: Path, settings: Path, chance: random.Random) -> tuple[float, list[str]]:
    """Let the program work on a job and kill it; when, and what it told."""
    environment = {**os.environ, "OFFSQUARE_SETTINGS": str(settings), "QT_QPA_PLATFORM": "offscreen"}
    words = [sys.executable, "-c", AT_WORK, str(path), str(chance.random())]
    with subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=environment
    ) as process:
        assert process.stdout is not None
        first = process.stdout.readline()
        time.sleep(chance.uniform(0.0, 4.0))
        process.kill()
        ended = time.time()
        return ended, [line for line in (first, *process.stdout) if line.endswith("\n")]


def _time_of(path: Path) -> float:
    with contextlib.suppress(ValueError):
        return float(job_file.read(path).title)
    return 0.0
