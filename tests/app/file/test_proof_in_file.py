"""The proof in a job file: kept as typed, and what cannot be refused in one sentence."""

import json

import pytest
from msgspec.structs import replace

from app.edit.bridge import proof_entries
from app.file import job_file
from geometry.job import NotAJob, Proof, Reading
from geometry.job.measured.proof import MOST
from tests.geometry.go_or_wait.test_what_if import sample

READ = Reading(id="nut.left–bridge.front.left", kind="distance", of=("nut.left", "bridge.front.left"))


def refused(**changed: object) -> str:
    """Why a job with this reading among its proof is refused, as the file's reader says it."""
    tree = json.loads(job_file.encode(sample("leaning-neck")))
    reading = {"id": "p1", "kind": "distance", "of": ["nut.left", "bridge.front.left"], "value": 640} | changed
    tree["proof"] = [{"stage": "clamped", "readings": [reading]}]
    with pytest.raises(job_file.JobFileError) as error:
        job_file.decode(json.dumps(tree).encode())
    return str(error.value)


def test_it_comes_back_as_it_was_typed_and_moves_no_fingerprint() -> None:
    job = sample("leaning-neck")
    typed = proof_entries.put(job, "clamped", READ, "25 1/4 in", "2026-11-28")
    again = job_file.decode(job_file.encode(typed))
    assert again == typed
    assert again.proof[0].readings[0].value == "25 1/4 in"
    assert job_file.fingerprint(typed) == job_file.fingerprint(job)


def test_typed_again_it_stays_in_its_row_and_emptied_it_goes() -> None:
    other = replace(READ, id="other", of=("nut.right", "bridge.front.left"))
    job = proof_entries.put(sample("leaning-neck"), "built", READ, 640.0, "2026-11-27")
    job = proof_entries.put(job, "built", other, 641.0, "2026-11-27")
    job = proof_entries.put(job, "built", READ, 640.5, "2026-11-28")
    (record,) = job.proof
    assert [(one.id, one.value) for one in record.readings] == [(READ.id, 640.5), ("other", 641.0)]
    assert record.when == "2026-11-28"
    for one in (READ, other):
        job = proof_entries.put(job, "built", one, None, "2026-11-28")
    assert job.proof == ()


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"kind": "same", "of": ["nut.left", "nut.right", "end.left", "end.right"], "value": None}, "of the kind same"),
        (
            {"of": ["nut.middle", "bridge.front.left"]},
            "names the point “nut.middle”, which is not among the job’s points",
        ),
        ({"of": ["nut.left", "bridge.middle"]}, "neither is a place of the new bridge"),
        ({"of": ["nut.left", "end.left"]}, "neither is a place of the new bridge"),
        ({"value": -3}, "must lie between"),
        ({"with": "laser"}, "which is not known"),
    ],
)
def test_what_no_proof_can_be_is_refused_in_one_sentence(changed: dict[str, object], sentence: str) -> None:
    said = refused(**changed)
    assert sentence in said
    assert "\n" not in said


def test_no_more_distances_than_a_hand_reads() -> None:
    many = tuple(replace(READ, id=f"p{n}") for n in range(MOST + 1))
    Proof(stage="clamped", readings=many[:-1])
    with pytest.raises(NotAJob, match=f"keep {MOST} at most"):
        Proof(stage="clamped", readings=many)
