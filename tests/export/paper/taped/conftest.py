"""Figures on several sheets of paper, drawn once for the tests of this room."""

import msgspec
import pytest

from export.records import Sheet, Stamp
from export.templates import sheets
from tests.export import conftest as made
from tests.export import sample_pages


def pages_of(name: str, asked: Stamp) -> list[Sheet]:
    """The pages of a sample job, template by template."""
    each = (msgspec.structs.replace(asked, templates=(one,)) for one in asked.templates)
    return [page for one in each for page in sample_pages.pages_of(name, one)]


@pytest.fixture(scope="module")
def full() -> tuple[Sheet, ...]:
    return sheets(made.job(), made.layout(), msgspec.structs.replace(made.stamp(), templates=("full-length",)))
