"""A figure on several sheets of paper."""

import msgspec
import pytest

from export.records import Sheet, Stamp
from export.templates import sheets
from geometry.job import Job
from geometry.layout import Layout


@pytest.fixture
def full(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    return sheets(job, layout, msgspec.structs.replace(stamp, templates=("full-length",)))
