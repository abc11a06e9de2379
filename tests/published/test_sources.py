"""Everything in data/ says whose it is, what it is called and on what terms it stands here."""

import json
from pathlib import Path
from typing import Any

import pytest

DATA = sorted((Path(__file__).parent / "data").glob("*.json"))
PRIVATE = ("github", "gitlab", "repository", "catalogue page", "forum", "supplier", "third-party copy")
"""Words that would tell of figures copied from a private account, or of a standard read in someone's reprint."""


def tree(file: Path) -> dict[str, Any]:
    return dict(json.loads(file.read_text(encoding="utf-8")))


def unnamed(found: dict[str, Any]) -> list[str]:
    """The cases without author, title or terms, of their own or from what they name."""
    cases = found["cases"].items() if isinstance(found["cases"], dict) else ((c["id"], c) for c in found["cases"])
    lacking = []
    for name, case in cases:
        work = found["works"].get(case["work"], {}) if "works" in found else {}
        said = {"title": case.get("work"), **found, **case, **work}
        lacking += [f"{name}: {key}" for key in ("author", "title", "terms") if not said.get(key)]
    return lacking


@pytest.mark.parametrize("file", DATA, ids=lambda file: file.stem)
def test_every_case_names_its_author_title_and_terms(file: Path) -> None:
    assert unnamed(tree(file)) == []


@pytest.mark.parametrize("file", DATA, ids=lambda file: file.stem)
def test_nothing_is_copied_from_a_private_account(file: Path) -> None:
    said = file.read_text(encoding="utf-8").casefold()
    assert [word for word in PRIVATE if word in said] == []


def test_a_case_without_its_author_would_be_seen() -> None:
    found = tree(DATA[0].with_name("strings.json"))
    del found["works"]["young"]["author"]
    assert unnamed(found) == ["STIFF-03: author"]


def test_every_work_that_is_named_is_used() -> None:
    found = tree(DATA[0].with_name("strings.json"))
    assert set(found["works"]) == {case["work"] for case in found["cases"].values()}
