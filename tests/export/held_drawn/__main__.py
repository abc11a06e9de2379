"""Keeps anew what is held of the sample jobs' drawings: `python -m tests.export.held_drawn`."""

from tests.export.held_drawn.drawn_sums import FILE, names, sums_of
from tests.geometry.held.keeping import keep_anew

if __name__ == "__main__":
    keep_anew(FILE, sums_of, names(), "tests.export.held_drawn")
