"""A job that is written and read again is the same job, and its file the same bytes."""

import json
from pathlib import Path
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from app.file import job_file, job_text
from geometry.job import Job
from tests.app.some_jobs import jobs


@given(jobs())
def test_a_job_comes_back_as_it_was(job: Job) -> None:
    data = job_file.encode(job)
    again = job_file.decode(data)
    assert again == job
    assert job_file.encode(again) == data


def test_a_file_on_the_disk_comes_back_as_it_was(tmp_path: Path) -> None:
    job = Job(title="Größe 3/4 … 点")
    path = tmp_path / "name with spaces.job.json"
    job_file.write(job, path)
    assert job_file.read(path) == job


TREES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**12), 10**12)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text(st.characters(exclude_categories=["Cs"])), inner, max_size=4)
    ),
    max_leaves=30,
)


@given(st.dictionaries(st.text(st.characters(exclude_categories=["Cs"]), max_size=8), TREES, max_size=5))
def test_canonical_text_holds_what_it_was_made_of(tree: dict[str, Any]) -> None:
    assert json.loads(job_text.canonical(tree)) == tree
    assert job_text.parse(job_text.canonical(tree)) == tree


def fault(data: bytes) -> str | None:
    """What the reader says against a file, None where it takes it."""
    try:
        job_file.decode(data)
    except job_file.JobFileError as error:
        return str(error)
    return None


@given(st.binary(max_size=300))
def test_no_bytes_bring_the_reader_down(data: bytes) -> None:
    assert fault(data)


@given(jobs(), st.data())
def test_a_file_with_one_value_spoilt_is_read_or_refused_in_a_sentence(job: Job, data: st.DataObject) -> None:
    tree = json.loads(job_file.encode(job))
    node: Any = tree
    while True:
        keys = list(node) if isinstance(node, dict) else list(range(len(node)))
        key = data.draw(st.sampled_from(keys))
        if not isinstance(node[key], (dict, list)) or not node[key] or data.draw(st.booleans()):
            break
        node = node[key]
    node[key] = data.draw(st.sampled_from([None, True, -1, 1e9, "x", [], {}, [1, 2, 3], {"of": 1}]))
    said = fault(json.dumps(tree).encode()) or ""
    assert "\n" not in said
    assert "`" not in said, "a library’s own words reached the person"
