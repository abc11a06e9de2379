"""Whether a closed outline crosses itself."""

from collections.abc import Sequence

Place = tuple[float, float]


def crosses_itself(points: Sequence[Place]) -> bool:
    """Whether two sides of the outline through these points, joined in their order, meet but at a corner they share; or
    whether a corner is named twice.
    """
    from shapely import LinearRing  # only a traced bridge needs it

    return len(set(points)) < len(points) or not LinearRing(points).is_simple
