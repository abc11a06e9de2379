"""Figures on several sheets of paper, drawn once for the tests of this room."""

from functools import cache

import msgspec
import pytest

from export.records import Sheet, Stamp
from export.templates import sheets
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export import conftest as made


@cache
def laid(name: str) -> tuple[Job, Layout]:
    """A sample job and its layout."""
    job = sample(name)
    return job, work_out(job)


def pages_of(name: str, asked: Stamp) -> list[Sheet]:
    """The pages of a sample job, template by template."""
    each = (msgspec.structs.replace(asked, templates=(one,)) for one in asked.templates)
    return [page for one in each for page in _pages_of(name, one)]


@cache
def _pages_of(name: str, asked: Stamp) -> tuple[Sheet, ...]:
    return sheets(*laid(name), asked)


@pytest.fixture(scope="module")
def full() -> tuple[Sheet, ...]:
    return sheets(made.job(), made.layout(), msgspec.structs.replace(made.stamp(), templates=("full-length",)))
