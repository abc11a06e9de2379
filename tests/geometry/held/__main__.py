"""Keeps anew what is held of the sample jobs and of the changes to them: `python -m tests.geometry.held`."""

from itertools import chain

from tests.geometry.held.beside_the_layout import ALL
from tests.geometry.held.changed_jobs import NAMES, alike
from tests.geometry.held.changed_sums import FILE, sums_of, told_by
from tests.geometry.held.keeping import keep_anew

if __name__ == "__main__":
    keep_anew(FILE, sums_of, chain(NAMES, ALL, map(told_by, alike())), "tests.geometry.held")
