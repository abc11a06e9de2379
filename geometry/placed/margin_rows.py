"""The outer strings' margins as a table, place by place."""

from typing import NamedTuple

from geometry.job import Job
from geometry.layout import Layout, Margin


class MarginRow(NamedTuple):
    """The outer strings' margins at one place, `at` in words, at bass and treble."""

    at: str
    bass: Margin
    treble: Margin

    @property
    def checked(self) -> bool:
        """Whether a gross error in a reading that holds either would show."""
        return self.bass.checked and self.treble.checked


def margin_rows(job: Job, layout: Layout) -> list[MarginRow]:
    """The outer strings' margins, one row a place."""
    found = {(m.place, job.bass_or_treble(m.side)): m for m in (layout.margins.at if layout.margins else ())}
    return [
        MarginRow(
            "at fret 12" if place == "fret 12" else f"at the {place}", found[place, "bass"], found[place, "treble"]
        )
        for place in dict.fromkeys(place for place, _ in found)
    ]
