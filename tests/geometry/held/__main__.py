"""Keeps anew what is held of the sample jobs and of the changes to them: `python -m tests.geometry.held`."""

from tests.geometry.held.beside_the_layout import ALL
from tests.geometry.held.changed_jobs import NAMES, changes
from tests.geometry.held.changed_sums import FILE, sums_of
from tests.geometry.held.keeping import keep_anew

if __name__ == "__main__":
    keep_anew(FILE, sums_of, (*NAMES, *ALL, *changes()), "tests.geometry.held")
