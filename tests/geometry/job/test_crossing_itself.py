"""Which closed outlines cross themselves: each tried from every corner, both ways round, and with its axes changed."""

import pytest

from geometry.job.crossing_itself import Place, crosses_itself

COMB = ((0, 0), (30, 0), (30, 10), (20, 10), (20, 5), (10, 5), (10, 10), (0, 10))
PLAIN: dict[str, tuple[Place, ...]] = {
    "a square": ((0, 0), (10, 0), (10, 10), (0, 10)),
    "one so small that products of its sides are nearly nothing": ((0, 0), (0.1, 0), (0.1, 0.1), (0, 0.1)),
    "a corner within a straight side": ((0, 0), (5, 0), (10, 0), (10, 10), (0, 10)),
    "two teeth that end on one line": COMB,
    "a bay whose end points at the far side": ((0, 0), (20, 0), (20, 20), (10, 20), (10, 1), (9, 1), (9, 20), (0, 20)),
}
CROSSED: dict[str, tuple[Place, ...]] = {
    "a bow": ((0, 0), (10, 10), (10, 0), (0, 10)),
    "a small one": ((0, 0), (0.1, 0.1), (0.1, 0), (0, 0.1)),
    "a corner that touches a side": ((0, 0), (10, 0), (10, 10), (5, 0), (0, 10)),
    "a corner that touches the end of a side": ((0, 0), (10, 0), (20, 10), (10, 0), (0, 10)),
    "a spike": ((0, 0), (10, 0), (5, 0), (5, 10)),
    "a short spike": ((0, 0), (0.5, 0), (0.2, 0), (0.2, 10)),
    "a corner twice": ((0, 0), (0, 0), (10, 0), (10, 10)),
    "two sides on each other": ((0, 0), (10, 0), (10, 10), (8, 10), (8, 0), (2, 0), (2, 10), (0, 10)),
}


@pytest.mark.parametrize("name", [*PLAIN, *CROSSED])
def test_an_outline(name: str) -> None:
    outline = (PLAIN | CROSSED)[name]
    turned = tuple((y, x) for x, y in outline)
    for at in range(len(outline)):
        for one in (outline, outline[::-1], turned, tuple((-x, -y) for x, y in turned)):
            assert crosses_itself((*one[at:], *one[:at])) == (name in CROSSED)
