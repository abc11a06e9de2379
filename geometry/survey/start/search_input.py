"""What the search for provisional places starts from: the readings by the points that they tie."""

from collections.abc import Mapping, Sequence

import msgspec

from geometry.survey.rows.row import Row
from geometry.survey.rows.which_side import Turn


class SearchInput(msgspec.Struct, frozen=True, eq=False):
    """What is known for the search: rows by point, turns by point, rough places that the person gave (`near`) and where
    such points usually lie, values read off the sheets outside and inside.
    """

    rows: tuple[Row, ...]
    touching: dict[str, list[Row]]
    turning: dict[str, list[Turn]]
    near: Mapping[str, complex]
    usual: Mapping[str, complex]
    sheets: tuple[dict[str, complex], ...]


def search_input(
    rows: Sequence[Row],
    points: Sequence[str],
    turns: Sequence[Turn],
    near: Mapping[str, complex],
    usual: Mapping[str, complex],
) -> SearchInput:
    """Gather what the search needs. Of readings that are copies of each other one is enough: five of them would be all
    that is looked at where a point is sought, and say no more than one.
    """
    touching: dict[str, list[Row]] = {name: [] for name in points}
    turning: dict[str, list[Turn]] = {name: [] for name in points}
    sheets: dict[str, dict[str, complex]] = {}
    read = list({msgspec.structs.replace(row, id=""): row for row in rows if row.id}.values())
    for row in read:
        if row.form == "at":
            sheet = sheets.setdefault(row.extras[0][0], {})
            sheet[row.points[0]] = sheet.get(row.points[0], 0j) + row.value * row.lean
        else:
            for name in dict.fromkeys(row.points):
                touching[name].append(row)
    for turn in turns:
        for name in turn[:3]:
            turning[name].append(turn)
    tied = tuple(row for row in read if row.points and row.form != "at")
    return SearchInput(tied, touching, turning, near, dict(usual), tuple(sheets.values()))
