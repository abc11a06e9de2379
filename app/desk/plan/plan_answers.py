"""What the plan answers to whoever points at it: where a point stands, how well it is known, how far it is from one
thing to another.
"""

import msgspec

from app.desk.document.document import Document
from app.edit.placed_turn import step_on_sheet
from app.say.plan.rough_layout import with_rough_places
from export.drawing.marks import XY
from geometry import units, words
from geometry.job import Job
from geometry.layout import Check, Layout


class DistanceAnswer(msgspec.Struct, frozen=True):
    """How far it is as it is now: a sentence, the number by itself, and where to draw it."""

    says: str
    number: str = ""
    ends: tuple[XY, XY] | None = None


class PlanAnswers:
    """`drawn_from` is the layout that the plan shows: as worked out, or rough before there is a neck."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.drawn_from: Layout | None = None

    def refresh(self) -> None:
        """Take over the document."""
        layout = self.document.layout
        self.drawn_from = with_rough_places(self.document.job, layout) if layout is not None else None

    def place_of(self, name: str) -> XY | None:
        """Where a point stands on the plan: as solved, or roughly."""
        layout = self.drawn_from
        if layout is None:
            return None
        solved = layout.points.get(name)
        return (solved.x, solved.y) if solved else layout.rough.get(name)

    def about(self, name: str) -> str:
        """A point's name and how well it is known."""
        job, layout = self.document.job, self.document.layout
        said = words.point(name, job.hand)
        where = f"\n{sentence}" if (sentence := words.where_point(name)) else ""
        solved = layout.points.get(name) if layout else None
        if solved is None:
            return f"{said}: only a rough place{where}"
        from export.plan.measured_points import pm95

        known = f"±{units.show_pm(pm95(solved), job.unit)} {job.unit}"
        return f"{said}, {known}" + ("" if solved.checked else ", nothing checks it") + where

    def about_post(self, number: str) -> tuple[XY, str] | None:
        """Where a new tuner post stands, and what is said of it; None where there is none of that number."""
        layout, unit = self.document.layout, self.document.job.unit
        found = layout.hardware.headstock if layout is not None else None
        if found is None or not number.isdecimal() or not 0 < int(number) <= len(found.posts):
            return None
        post = found.posts[int(number) - 1]
        who = f"post of {words.string(post.string)}" if post.string else f"post {number}"
        along, across = (units.show_pm(pm95, unit) for pm95 in post.pm95)
        edge = f", {units.said_pm(post.edge[1], unit, post.edge[0])} to the edge" if post.edge is not None else ""
        return post.at, f"{who}, ±{along} along, ±{across} {unit} across{edge}"

    def check(self, where: str) -> Check | None:
        """The distance to check that is meant by `"check:fret12.slot.bass"`; None where there is none."""
        layout = self.document.layout
        return next((check for check in layout.checks if f"check:{check.code}" == where), None) if layout else None

    def how_far(self, a: str, b: str) -> DistanceAnswer:
        """How far it is from one thing to another, points or lines, or from end to end of a distance to check, `a`, as
        it is now.
        """
        from app.say.plan import distance

        if not b:
            check = self.check(a)
            return distance_of(check, self.document.job) if check is not None else DistanceAnswer("")
        from geometry.placed.how_far import how_far

        job = self.document.job
        found = how_far(job, a, b)
        if found is None:
            return DistanceAnswer(says=distance.unknown(self.document.layout, a, b, job.hand))
        ends = found.ends
        if found.kind == "points":
            places = self.place_of(a.removeprefix("point:")), self.place_of(b.removeprefix("point:"))
            ends = (places[0], places[1]) if places[0] and places[1] else None
        return DistanceAnswer(says=distance.sentence(found, a, b, job), number=distance.short(found, job), ends=ends)

    def step_on_sheet(self, name: str, by: XY) -> XY:
        """The angle from the frame of the placed points to the neck frame."""
        return step_on_sheet(self.document.job, self.document.layout, name, by)


def distance_of(check: Check, job: Job) -> DistanceAnswer:
    """A distance to check as it is drawn: both its ends, and how long it is."""
    told = f"{units.show(check.distance, job.unit)} ±{units.show_pm(check.pm95, job.unit)} {job.unit}"
    ends = f"From {check.from_} to {check.to}"
    return DistanceAnswer(says=f"{ends}: {told}.", number=told, ends=(check.from_xy, check.to_xy))
