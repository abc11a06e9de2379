"""Keeps anew what is held of faulty jobs: `python -m tests.geometry.held_faulty`, and, with names of further jobs, one
on each line, from the standard input, holds these too.
"""

import sys

from tests.geometry.held.keeping import keep_anew, kept
from tests.geometry.held_faulty.faulty_jobs import FILE, sums_of

if __name__ == "__main__":
    further = [] if sys.stdin.isatty() else sys.stdin.read().splitlines()
    keep_anew(FILE, sums_of, dict.fromkeys((*kept(FILE), *further)), "tests.geometry.held_faulty")
