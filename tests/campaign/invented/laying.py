"""Where a sheet drawn from a layout comes to lie on the true instrument: to the board's end, between the edges.

The geometry is the campaign's own.
"""

from geometry.layout import XY, Layout
from tests.campaign.invented.instruments import Instrument, best_line, dot, neck_of


def shown(layout: Layout, *places: XY) -> list[complex]:
    """Places of a layout as its sheet shows them: from where it begins, along the middle between the edges."""
    assert layout.neck is not None
    ends = [complex(*at) for at in layout.neck.end or layout.neck.nut]
    edges = [(complex(*ray.at), complex(*ray.direction)) for ray in (layout.neck.left_edge, layout.neck.right_edge)]
    start, way = _middle(edges, sum(ends) / 2)
    return [(complex(*at) - start) / way for at in places]


def laid(instrument: Instrument, stations: tuple[str, ...]) -> tuple[complex, complex]:
    """Where a sheet laid to the true board begins, and which way it runs, in the body's frame."""
    points = instrument.points
    edges = []
    for side in ("left", "right"):
        normal, reach = best_line([points[f"{at}.{side}"] for at in stations])
        edges.append((normal * reach, normal / 1j))
    return _middle(edges, (points["end.left"] + points["end.right"]) / 2)


def lies(layout: Layout, instrument: Instrument, stations: tuple[str, ...], *places: XY) -> list[complex]:
    """Where the sheet, laid to the true board's end, puts places of the layout, in the true neck's frame."""
    start, way = laid(instrument, stations)
    neck = neck_of(instrument.points, stations)
    return [neck.see(start + way * at) for at in shown(layout, *places)]


def _middle(edges: list[tuple[complex, complex]], near: complex) -> tuple[complex, complex]:
    """The middle line between two edge lines (a point and a direction each): its point nearest to a place, its way."""
    way = edges[0][1] + edges[1][1]
    way /= abs(way)
    lines = [(1j * direction, dot(1j * direction, at)) for at, direction in edges]
    normal = sum(line[0] for line in lines)
    reach = sum(line[1] for line in lines) / abs(normal)
    normal /= abs(normal)
    return near - normal * (dot(normal, near) - reach), way
