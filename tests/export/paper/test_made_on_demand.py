"""What is made one by one, only as far as it is asked for."""

from collections.abc import Iterator

from export.paper.made_on_demand import Kept


def test_each_is_made_once_and_only_when_it_is_come_to() -> None:
    made: list[int] = []

    def making() -> Iterator[int]:
        for number in range(3):
            made.append(number)
            yield number

    kept = Kept(making())
    assert next(iter(kept)) == 0
    assert made == [0]
    assert list(kept) == [0, 1, 2]
    assert list(kept) == [0, 1, 2]
    assert made == [0, 1, 2]
