"""What is made one by one, only as far as it is asked for."""

from collections.abc import Iterable, Iterator
from typing import TypeVar

T = TypeVar("T")


class Kept(Iterable[T]):
    """The same things each time they are gone through; each is made when it is first come to."""

    def __init__(self, things: Iterator[T]) -> None:
        self._made, self._left = list[T](), things

    def __iter__(self) -> Iterator[T]:
        yield from self._made
        for thing in self._left:
            self._made.append(thing)
            yield thing
