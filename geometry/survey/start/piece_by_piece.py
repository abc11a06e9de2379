"""A survey that will not come right as a whole, put together piece by piece: the board first, then one point after
another.

One point whose readings contradict each other, or barely meet, must not take the rest down with it. A point whose
readings do not go with what stands already is left out and named.
"""

from collections.abc import Callable, Sequence

import msgspec

from geometry.survey.adjust.network import Network, network_of
from geometry.survey.rows.row import Row

BOARD = ("nut.", "end.", "fret12.", "edge.", "thread.")
"""The names the board's own points begin with."""


class Pieces(msgspec.Struct, frozen=True, eq=False):
    """The network of what goes together, and the readings (ids) of each point that was left out."""

    net: Network
    left_out: dict[str, tuple[str, ...]]


def put_together(rows: Sequence[Row], stands: Callable[[Network], bool]) -> Pieces | None:
    """The board and every further point whose readings go with it, as `stands` judges a network.

    None where there is no board, nothing besides, or where the board's own readings do not stand.
    """
    names = list(dict.fromkeys(name for row in rows for name in row.points))
    kept = {name for name in names if name.startswith(BOARD)}
    waiting = [name for name in names if name not in kept]
    if len(kept) < 3 or not waiting or not stands(_of(rows, kept)):
        return None
    left_out: dict[str, tuple[str, ...]] = {}
    while waiting:
        name = max(waiting, key=lambda one: _held(rows, kept, one))
        waiting.remove(name)
        if stands(_of(rows, kept | {name})):
            kept.add(name)
        else:
            left_out[name] = tuple(dict.fromkeys(row.id for row in rows if name in row.points))
    return Pieces(_of(rows, kept), left_out)


def _of(rows: Sequence[Row], names: set[str]) -> Network:
    """The network of the readings among these points, with what is known of their extra unknowns beforehand."""
    among = [row for row in rows if row.id and names.issuperset(row.points)]
    extras = {name for row in among for name, _ in row.extras}
    beforehand = (row for row in rows if not row.id and names.issuperset(row.points))
    return network_of([*among, *(row for row in beforehand if extras.issuperset(name for name, _ in row.extras))])


def _held(rows: Sequence[Row], kept: set[str], name: str) -> int:
    """By how many rows a point is held to those that stand."""
    return sum(name in row.points and kept.issuperset(set(row.points) - {name}) for row in rows)
