"""Tables beside a drawing: holes and slots by number, with X and Y from the datum, size, drill and depth.

X runs to the tail and Y to the side that is upward in the file, mirrored where the part is seen from inside. A slot is
listed by the middles of its two ends.
"""

from collections.abc import Sequence
from itertools import zip_longest

import msgspec

from export.drawing.marks import XY
from geometry.units import Unit, show, show_size

PLACES = 2
"""Decimals of a mm in the tables: finer than any rule, as fine as a machine is set."""


SIZE = 4
"""The first column of a hole's row that tells of its size, drill and depth."""
REAMED = "pin {}, ream"
"""A pin hole's name, by its string's."""


class Bored(msgspec.Struct, frozen=True, kw_only=True):
    """A hole, or one end of a slot. `at` in instrument mm, `diameter` in mm (of a slot its width); `drill` as its
    metric and its inch name, none for a slot; `depth` in words, or `deep` in mm. `number`: what the drawing prints
    beside it; none: its place in the table.
    """

    name: str
    number: str = ""
    at: XY
    diameter: float
    drill: tuple[str, str] | None = None
    depth: str = "through"
    deep: float | None = None

    def depth_in(self, unit: Unit) -> str:
        """The depth in words."""
        return self.depth if self.deep is None else f"{show_size(self.deep, unit)} {unit} deep"


class Table(msgspec.Struct, frozen=True, kw_only=True, cache_hash=True):
    """Words in rows and columns. `sides`, a letter a column: from the left (`s`) or lined up on the right (`e`).
    `below`: lines that stand under it, and whether they are bold. `second`: with which column the second of two halves
    begins.
    """

    title: str
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    sides: str = ""
    below: tuple[tuple[str, bool], ...] = ()
    second: int | None = None


def filled(table: Table) -> Table:
    """The table without the columns in which no row holds a word; the first stays, which names the rows."""
    keep = [at for at in range(len(table.head)) if at == 0 or any(row[at] for row in table.rows)]
    return msgspec.structs.replace(
        table,
        head=tuple(table.head[at] for at in keep),
        rows=tuple(tuple(row[at] for at in keep) for row in table.rows),
        sides="".join(table.sides[at] for at in keep),
    )


def is_numbered(table: Table) -> bool:
    """Whether its rows are numbers and places alone, so that it is slim and may be folded."""
    return table.head == ("", "X", "Y")


def folded(table: Table) -> Table:
    """The table with its rows in two halves beside each other."""
    half = (len(table.rows) + 1) // 2
    blank = ("",) * len(table.sides)
    rows = tuple(a + b for a, b in zip_longest(table.rows[:half], table.rows[half:], fillvalue=blank))
    return msgspec.structs.replace(
        table, head=table.head * 2, rows=rows, sides=table.sides * 2, second=len(table.sides)
    )


def from_datum(at: XY, datum: XY, *, mirror: bool) -> XY:
    """A place on the instrument as X and Y from the datum, mm."""
    x, y = at[0] - datum[0], at[1] - datum[1]
    return x, -y if mirror else y


def paper_table(
    bored: Sequence[Bored], datum: XY, called: str, up: str, unit: Unit, *, mirror: bool, places: int
) -> Table:
    """The table as a sheet shows it, in the job's unit; `up` is the side, bass or treble, that Y runs to. What is the
    same for several holes, all of them, is said once below it. `places`: decimals of a mm in X and Y, 1 for what a rule
    shows; sizes stand in fractions where a rule of 64ths shows them, else in decimals, as drills are.
    """
    rows: list[tuple[str, ...]] = []
    for number, one in enumerate(bored, 1):
        x, y = from_datum(one.at, datum, mirror=mirror)
        x_shown, y_shown = (show(value, unit, places) for value in (x, y))
        wide = show_size(one.diameter, unit)
        metric, inch = one.drill or ("", "")
        drills = (inch, metric) if unit == "in" else (metric, inch)
        rows.append((one.number or str(number), one.name, x_shown, y_shown, wide, *drills, one.depth_in(unit)))
    below = f"X to the tail, Y to {up.upper()}, from {called}."
    if len(rows) > 1 and len({row[SIZE:] for row in rows}) == 1:
        size, drill, other, depth = rows[0][SIZE:]
        below += f" All {size} wide{f', drill {drill} or {other}' if drill else ''}, {depth}."
        rows = [(*row[:SIZE], "", "", "", "") for row in rows]
    title = _title(bored)
    if all(one.name == REAMED.format(number) for number, one in enumerate(bored, 1)):
        title, rows = "Pin holes, to ream", [(number, "", *more) for number, _, *more in rows]
    table = Table(
        title=f"{title}, {unit}",
        head=("", "", "X", "Y", "size", "drill", "or", "depth"),
        rows=tuple(rows),
        sides="sseeesss",
        below=((below, False),),
    )
    return filled(table)


def _title(bored: Sequence[Bored]) -> str:
    return "Holes and slot" if any(one.drill is None for one in bored) else "Holes"


def file_lines(bored: Sequence[Bored], datum: XY, *, mirror: bool, shown: bool = False) -> tuple[str, ...]:
    """The table as a file for a machine holds it, a line a row, in mm from the file's datum: holes that it drills, or
    that the template it makes only shows (`shown`).
    """
    if not bored:
        return ()
    lines = [f"{_title(bored)}{' that this template shows' if shown else ''}, X and Y from the datum, mm:"]
    for number, one in enumerate(bored, 1):
        x, y = from_datum(one.at, datum, mirror=mirror)
        drill = f", drill {' or '.join(one.drill)}" if one.drill else " wide"
        where = f"X {_plain(x)} Y {_plain(y)}"
        lines.append(
            f"{one.number or number} {one.name}: {where}, {_plain(one.diameter)}{drill}, {one.depth_in('mm')}."
        )
    return tuple(lines)


def _plain(length: float) -> str:
    """Millimetres with the minus sign that every machine's program knows."""
    return show(length, "mm", PLACES).replace("−", "-")
