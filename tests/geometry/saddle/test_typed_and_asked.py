"""Typed compensation against what the strings ask for. The ± and places are made up for the test, the figures of off
derived from them: (typed − asked) / ±.
"""

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Job, Strings
from geometry.saddle import typed_and_asked
from geometry.saddle.string_plans import WantedCompensation
from geometry.strings.compensation import Compensated
from geometry.strings.usual_sets import SETS
from geometry.work_out import work_out
from tests.geometry.bounds.right_jobs import changed, found, sample

ASKED = ((2.0, 1.0), (3.5, 1.5), (1.8, 1.0), (2.5, 1.5), (3.5, 2.0), (5.0, 2.0))
"""What each of six strings asks for and its ±, mm."""


def told(
    monkeypatch: pytest.MonkeyPatch,
    *typed: float | None,
    known: bool = True,
    asking: tuple[tuple[float, float], ...] = ASKED,
) -> list[Finding]:
    """What is said of compensation `typed`, a string each; None where it is worked out."""
    asked = [
        Compensated(name=str(at), saddle=mm, nut=0.0, pm95=pm, source="worked out" if known else "common practice")
        for at, (mm, pm) in enumerate(asking[: len(typed)], 1)
    ]
    each = tuple(
        replace(own, saddle=mm, pm95=0.0, source="typed", tension_n=100.0) if mm is not None else own
        for own, mm in zip(asked, typed, strict=True)
    )
    monkeypatch.setattr(typed_and_asked, "compensate", lambda _ready: tuple(asked))
    monkeypatch.setattr(typed_and_asked, "as_if_untyped", lambda ready: ready)
    wanted = WantedCompensation(each=each, ready=None, heard=(), trials={}, across=None)  # type: ignore[arg-type]
    return list(typed_and_asked.findings(Job(strings=Strings()), wanted))


RIGHT = tuple(mm for mm, _ in ASKED)


@pytest.mark.parametrize(
    ("typed", "where"),
    [
        (RIGHT, []),
        # one string against the middle one, whose off is 0: 1.25 × 2.0 = 2.5
        ((*RIGHT[:5], 5.0 + 2.49), []),
        ((*RIGHT[:5], 5.0 + 2.51), ["string:6"]),
        ((*RIGHT[:5], 5.0 - 2.51), ["string:6"]),
        # of string 3 that is 1.25; of string 1 beside it less
        ((2.0 + 1.2, 3.5, 1.8 + 1.26, 2.5, 3.5, 5.0), ["string:3"]),
        # all moved by the same part of their ±, 1.9 and 2.1 of it: none stands out, but all
        (tuple(mm + 1.9 * pm for mm, pm in ASKED), []),
        (tuple(mm + 2.1 * pm for mm, pm in ASKED), ["field:strings.compensation"]),
        (tuple(mm - 2.1 * pm for mm, pm in ASKED), ["field:strings.compensation"]),
        # inches as mm: off is (0.08 − 2) / 1, (0.14 − 3.5) / 1.5 … −1.92 −2.24 −1.73 −1.6 −1.68 −2.4, middle −1.83
        (tuple(round(mm / 25.4, 2) for mm in RIGHT), ["field:strings.compensation"]),
        # of a few strings each is held against its own ±, twice
        ((2.0 + 1.9, None, None, None, None, None), []),
        ((2.0 + 2.1, None, None, None, None, None), ["string:1"]),
        ((None,) * 6, []),
    ],
)
def test_what_is_held_against_what(
    monkeypatch: pytest.MonkeyPatch, typed: tuple[float | None, ...], where: list[str]
) -> None:
    assert [one.where for one in told(monkeypatch, *typed)] == where


@pytest.mark.parametrize(("more", "said"), [(0.98, 0), (1.02, 1)])
def test_less_than_a_millimetre_is_not_spoken_of(monkeypatch: pytest.MonkeyPatch, more: float, said: int) -> None:
    assert len(told(monkeypatch, 2.0, 2.0, 2.0 + more, asking=((2.0, 0.5),) * 3)) == said


def test_strings_of_unknown_make_ask_for_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert told(monkeypatch, 9.0, 9.0, 9.0, 0.0, 0.0, 0.0, known=False) == []


def test_beside_others_that_are_all_off_one_is_held_to_as_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """All but string 6 are 1.5 of their ± more than is asked for, which they may be; to go with them it would be
    5.0 + 1.5 × 2.0 = 8.0 mm, and not the 5.0 mm that it asks for by itself.
    """
    (found,) = told(monkeypatch, *(mm + 1.5 * pm for mm, pm in ASKED[:5]), 5.0)
    assert found.where == "string:6"
    assert found.values == {"typed": 5.0, "asked": pytest.approx(8.0)}
    assert "is typed as 5.0 mm, and beside the others its make and pitch ask for 8.0 ±2.0 mm:" in found.text


def test_of_few_strings_no_others_are_spoken_of(monkeypatch: pytest.MonkeyPatch) -> None:
    (found,) = told(monkeypatch, 2.0 + 2.1, None, None)
    assert "is typed as 4.1 mm, and its make and pitch ask for 2.0 ±1.0 mm:" in found.text


def test_a_row_too_low_is_seen_in_a_whole_job() -> None:
    job = sample()
    assert job.strings is not None
    right = tuple(round(plan.compensation, 1) for plan in work_out(job).strings)
    assert found(changed(job, strings={"compensation": right}), "compensation.against") is None
    slipped = found(changed(job, strings={"compensation": (right[0], *right[:-1])}), "compensation.against")
    assert slipped is not None
    assert slipped.grade == "look"
    assert "is typed as" in slipped.text
    assert "ask for" in slipped.text


def test_the_string_that_is_named_is_the_one_with_the_slip() -> None:
    job = changed(sample(), strings={"list": SETS["steel 12-54"].strings})
    right = tuple(round(plan.compensation, 1) for plan in work_out(job).strings)
    slipped = found(changed(job, strings={"compensation": (*right[:4], 0.3, right[5])}), "compensation.against")
    assert slipped is not None
    assert slipped.where == "string:5"
    assert slipped.values["typed"] == 0.3
    assert slipped.values["asked"] == pytest.approx(right[4], abs=0.05)


def test_what_was_typed_for_another_set_is_held_against_this_one() -> None:
    """Another set keeps what was typed for the one before, and so it may be heard on, too."""
    job = sample()
    assert job.strings is not None
    right = tuple(round(plan.compensation, 1) for plan in work_out(job).strings)
    plain = changed(
        job, strings={"compensation": right, "typed_for": job.strings.list, "list": SETS["steel 10-46"].strings}
    )
    assert found(plain, "compensation.against") is None
    far = changed(plain, strings={"compensation": (*right[:4], 0.3, right[5])})
    told_of = found(far, "compensation.against")
    assert told_of is not None
    assert told_of.where == "string:5"
