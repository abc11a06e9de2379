"""Whether a closed outline crosses itself. In plain numbers: records of a job are made where no library is at hand."""

from collections.abc import Sequence

Place = tuple[float, float]


def crosses_itself(points: Sequence[Place]) -> bool:
    """Whether two sides of the outline through these points, joined in their order, meet but at a corner they share."""
    count = len(points)
    sides = sorted(
        (min(a[0], b[0]), max(a[0], b[0]), index, a, b)
        for index, (a, b) in enumerate(zip(points, (*points[1:], points[0]), strict=True))
    )
    open_: list[tuple[float, int, Place, Place]] = []
    for low, high, index, a, b in sides:
        open_ = [side for side in open_ if side[0] >= low]
        for _, other, c, d in open_:
            apart = (index - other) % count
            if apart in (1, count - 1):
                if _folds_back(a, b, c, d):
                    return True
            elif _meet(a, b, c, d):
                return True
        open_.append((high, index, a, b))
    return False


def _turn(a: Place, b: Place, c: Place) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _between(a: Place, b: Place, c: Place) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _meet(a: Place, b: Place, c: Place, d: Place) -> bool:
    one, two, three, four = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if one * two < 0 and three * four < 0:
        return True
    on = ((one, a, b, c), (two, a, b, d), (three, c, d, a), (four, c, d, b))
    return any(turn == 0 and _between(start, stop, at) for turn, start, stop, at in on)


def _folds_back(a: Place, b: Place, c: Place, d: Place) -> bool:
    """Whether two sides that share a corner lie on each other."""
    if b == c or a == d:
        corner, one, two = (b, a, d) if b == c else (a, b, c)
    else:
        return _meet(a, b, c, d)
    back = (one[0] - corner[0]) * (two[0] - corner[0]) + (one[1] - corner[1]) * (two[1] - corner[1])
    return corner in (one, two) or (_turn(corner, one, two) == 0 and back > 0)
