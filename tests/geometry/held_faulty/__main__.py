"""Keeps anew what is held of faulty jobs: `python -m tests.geometry.held_faulty`, and with files that name
further ones, each on a line of its own, holds these too.
"""

import sys
from pathlib import Path

from tests.geometry.held.keeping import keep_anew, kept
from tests.geometry.held_faulty.faulty_jobs import FILE, sums_of

if __name__ == "__main__":
    further = [name for file in sys.argv[1:] for name in Path(file).read_text(encoding="utf-8").splitlines()]
    keep_anew(FILE, sums_of, dict.fromkeys((*kept(FILE), *further)), "tests.geometry.held_faulty")
