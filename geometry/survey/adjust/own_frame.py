"""The survey's own frame: the straightedge that it stands on."""

from collections.abc import Iterator

import msgspec

from geometry.job import Job
from geometry.survey.adjust.adjustment import Adjusted, describe
from geometry.survey.adjust.datum import Straightedge, datum_transform, moved_to_datum
from geometry.survey.adjust.looseness import movable_points
from geometry.survey.adjust.network import Network
from geometry.survey.result import Array


def possible_bases(job: Job, net: Network) -> Iterator[Straightedge]:
    """The straightedges a survey may stand on, the best first: the first one laid, a board's edge, the nut, and the
    longest distances read.
    """
    present = set(net.points)
    for reading in job.readings:
        if reading.taken and len(reading.from_) == 2 and present.issuperset(reading.from_):
            yield Straightedge(*reading.from_)
            break
    for a, b in (("nut.left", "end.left"), ("nut.right", "end.right"), ("nut.left", "nut.right")):
        if a in present and b in present:
            yield Straightedge(a, b)
    spans = sorted((row for row in net.rows if row.id and row.form == "distance"), key=lambda row: -row.value)
    for row in spans:
        yield Straightedge(*row.points)
    yield Straightedge(*net.points[:2])


def in_own_frame(job: Job, net: Network, x: Array, base: Straightedge) -> Adjusted:
    """The fit, standing on the base or, where that leaves points loose, on the one that leaves fewest loose."""
    done = describe(net, x, base)
    if not done.loose:
        return done
    fewest, best = len(movable_points(net, done.free)), base
    for other in possible_bases(job, net):
        count = len(movable_points(net, datum_transform(net, done.x, other)(done.free)))
        if count < fewest:
            fewest, best = count, other
    if best == base:
        return done
    again = describe(net, moved_to_datum(net, x, best, {}), best)
    return msgspec.structs.replace(again, resting=done.resting)
