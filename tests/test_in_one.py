"""Many cases in one test: all are gone through, and all that fail are named."""

import pytest

from tests.in_one import in_one


def test_every_case_that_fails_is_named_and_no_other() -> None:
    seen = []

    @in_one("a, b", [(1, 1), (1, 2), (2, 2), (2, 3)])
    def check(a: int, b: int) -> None:
        seen.append((a, b))
        assert a == b

    with pytest.raises(AssertionError) as told:
        check()
    assert seen == [(1, 1), (1, 2), (2, 2), (2, 3)]
    said = str(told.value)
    assert said.startswith("2 cases fail")
    assert "{'a': 1, 'b': 2}: AssertionError" in said
    assert "{'a': 2, 'b': 3}: AssertionError" in said
    assert "{'a': 2, 'b': 2}" not in said


def test_two_tables_are_gone_through_each_with_each() -> None:
    seen = []

    @in_one("a", "xy")
    @in_one("b", [1, 2])
    def check(a: str, b: int) -> None:
        seen.append((a, b))

    check()
    assert sorted(seen) == [("x", 1), ("x", 2), ("y", 1), ("y", 2)]


def test_what_raises_nothing_where_it_should_is_a_failure() -> None:
    @in_one("text", ["1", "one"])
    def check(text: str) -> None:
        with pytest.raises(ValueError, match="invalid"):
            int(text)

    with pytest.raises(AssertionError, match="1 cases fail"):
        check()


def test_a_case_that_is_skipped_hides_no_failure() -> None:
    @in_one("number", [1, 2, 3])
    def check(number: int) -> None:
        if number == 2:
            pytest.skip("not here")
        assert number == 3

    with pytest.raises(AssertionError, match="2 cases fail") as told:
        check()
    assert "{'number': 1}: AssertionError" in str(told.value)
    assert "{'number': 2}: Skipped: not here" in str(told.value)


@pytest.fixture
def doubled() -> int:
    return 2


@in_one("value, twice", [(1, 2), (2, 4)])
def test_fixtures_are_given_as_to_any_test(doubled: int, value: int, twice: int) -> None:
    assert doubled * value == twice
