"""Tables beside a drawing: holes and slots by number, with X and Y from the datum, size, drill and depth.

X runs to the tail and Y to the side that is upward in the file, mirrored where the part is seen from inside. A slot is
listed by the middles of its two ends.
"""

from collections.abc import Sequence

import msgspec

from export.drawing.marks import XY
from geometry.units import Unit, show

PLACES = 2
"""Decimals of a mm in the tables: finer than any rule, as fine as a machine is set."""


class Bored(msgspec.Struct, frozen=True, kw_only=True):
    """A hole, or one end of a slot. `at` in instrument mm, `diameter` in mm (of a slot its width); `drill` as its
    metric and its inch name, none for a slot; `depth` in words, or `deep` in mm.
    """

    name: str
    at: XY
    diameter: float
    drill: tuple[str, str] | None = None
    depth: str = "through"
    deep: float | None = None

    def depth_in(self, unit: Unit) -> str:
        """The depth in words."""
        return self.depth if self.deep is None else f"{show(self.deep, unit, PLACES)} {unit} deep"


class Table(msgspec.Struct, frozen=True, kw_only=True):
    """Words in rows and columns. `sides`, a letter a column: from the left (`s`) or lined up on the right (`e`).
    `below`: lines that stand under it, and whether they are bold.
    """

    title: str
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    sides: str = ""
    below: tuple[tuple[str, bool], ...] = ()


def filled(table: Table) -> Table:
    """The table without the columns in which no row holds a word; the first stays, which names the rows."""
    keep = [at for at in range(len(table.head)) if at == 0 or any(row[at] for row in table.rows)]
    return msgspec.structs.replace(
        table,
        head=tuple(table.head[at] for at in keep),
        rows=tuple(tuple(row[at] for at in keep) for row in table.rows),
        sides="".join(table.sides[at] for at in keep),
    )


def from_datum(at: XY, datum: XY, *, mirror: bool) -> XY:
    """A place on the instrument as X and Y from the datum, mm."""
    x, y = at[0] - datum[0], at[1] - datum[1]
    return x, -y if mirror else y


def paper_table(bored: Sequence[Bored], datum: XY, called: str, up: str, unit: Unit, *, mirror: bool) -> Table:
    """The table as a sheet shows it, in the job's unit; `up` is the side, bass or treble, that Y runs to."""
    rows = []
    for number, one in enumerate(bored, 1):
        x, y = from_datum(one.at, datum, mirror=mirror)
        numbers = (show(value, unit, PLACES) for value in (x, y, one.diameter))
        metric, inch = one.drill or ("", "")
        drills = (inch, metric) if unit == "in" else (metric, inch)
        rows.append((str(number), one.name, *numbers, *drills, one.depth_in(unit)))
    return Table(
        title=f"{_title(bored)}, {unit}",
        head=("", "", "X", "Y", "size", "drill", "or", "depth"),
        rows=tuple(rows),
        sides="sseeesss",
        below=((f"X to the tail, Y to {up.upper()}, from {called}.", False),),
    )


def _title(bored: Sequence[Bored]) -> str:
    return "Holes and slot" if any(one.drill is None for one in bored) else "Holes"


def file_lines(bored: Sequence[Bored], datum: XY, *, mirror: bool) -> tuple[str, ...]:
    """The table as a file for a machine holds it, a line a row, in mm from the file's datum."""
    if not bored:
        return ()
    lines = [f"{_title(bored)}, X and Y from the datum, mm:"]
    for number, one in enumerate(bored, 1):
        x, y = from_datum(one.at, datum, mirror=mirror)
        drill = f", drill {' or '.join(one.drill)}" if one.drill else " wide"
        where = f"X {_plain(x)} Y {_plain(y)}"
        lines.append(f"{number} {one.name}: {where}, {_plain(one.diameter)}{drill}, {one.depth_in('mm')}.")
    return tuple(lines)


def _plain(length: float) -> str:
    """Millimetres with the minus sign that every machine's program knows."""
    return show(length, "mm", PLACES).replace("−", "-")
