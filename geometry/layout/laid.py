"""A layout whose places are known and which is not **judged** yet: a picture needs no more, and is shown meanwhile.

To judge is to add what the person should know, and what the new work does to the old; no place moves by it.
"""

from collections.abc import Callable, Iterable
from functools import partial, reduce
from typing import NamedTuple, ParamSpec

from msgspec.structs import replace

from geometry.findings import Finding
from geometry.layout.whole import Layout

Judgement = Callable[[Layout], Layout]
"""Adds to a layout what is to be said of it."""
Asked = ParamSpec("Asked")


class Laid(NamedTuple):
    """A layout without findings, and what is still to be judged of it, in order."""

    layout: Layout
    judgements: tuple[Judgement, ...] = ()

    def with_places(self, **places: object) -> "Laid":
        """More of the layout is known."""
        return Laid(replace(self.layout, **places), self.judgements)

    def then(self, judgement: Judgement) -> "Laid":
        """One more judgement, after the others."""
        return Laid(self.layout, (*self.judgements, judgement))

    def says(self, *found: Finding) -> "Laid":
        """These come next among the findings."""
        return self.tells(lambda: found)

    def tells(self, find: Callable[Asked, Iterable[Finding]], /, *args: Asked.args, **named: Asked.kwargs) -> "Laid":
        """What `find` will have to say of these comes next."""
        return self.then(partial(_told, partial(find, *args, **named)))

    def judged(self) -> Layout:
        """The whole layout."""
        return reduce(lambda layout, judge: judge(layout), self.judgements, self.layout)


def _told(find: Callable[[], Iterable[Finding]], layout: Layout) -> Layout:
    return with_findings(layout, find())


def with_findings(layout: Layout, found: Iterable[Finding]) -> Layout:
    """The layout with more to be said of it."""
    return replace(layout, findings=(*layout.findings, *found))
