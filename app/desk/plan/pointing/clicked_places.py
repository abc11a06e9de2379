"""Places given one after the other by clicks on the plan: the corners of an outline, holes, the ends of a line."""

from collections.abc import Callable

import msgspec

from geometry.layout import XY


class Placing(msgspec.Struct, frozen=True):
    """`says` what is to be pointed at; `got` are places so far (mm), or names of points that are there; `done` is
    called with all of them.
    """

    says: str
    done: Callable[[tuple[str | XY, ...]], None]
    got: tuple[str | XY, ...] = ()

    def with_more(self, place: str | XY) -> "Placing":
        """With one more; the same again is no more."""
        return self if self.got and self.got[-1] == place else msgspec.structs.replace(self, got=(*self.got, place))

    def with_one_less(self) -> "Placing":
        return msgspec.structs.replace(self, got=self.got[:-1])

    @property
    def sentence(self) -> str:
        """What to do, and how to end."""
        so_far = f" {len(self.got)} so far." if self.got else ""
        return f"{self.says}{so_far} Enter ends, Backspace takes the last one back, Escape gives up."
