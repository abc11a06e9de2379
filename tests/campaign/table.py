"""The campaign's figures as rows of text: one table, a column each, and the one line that says how it went."""

import math
from collections.abc import Callable, Sequence

from geometry.survey.judge.verdict import WORSE
from tests.campaign.counting import Share, false_difference, held, median_pm, points_held, share, under_95, verdicts
from tests.campaign.judging import SAME, Record

Cell = Callable[[Sequence[Record]], str]
FRONT, SHEET = ("front.left", "front.right"), ("sheet.left", "sheet.right")
DISAGREE = ("coarse", "misread", "one of these", "swapped")
"""The verdicts that say that readings disagree by more than their ± allow, all of them or some that are named."""


def percent(found: Share, *, interval: bool = False) -> str:
    """A share in per cent, with its 95 % interval where asked for; a dash where nothing was counted."""
    if not found.of:
        return "–"
    said = f"{100 * found.value:.1f}"
    if not interval:
        return said
    low, high = found.interval
    return f"{said} ({100 * low:.1f}–{100 * high:.1f})"


def number(value: float) -> str:
    """Millimetres, or a dash where there is no such figure."""
    return "–" if math.isnan(value) else f"{value:.2f}"


def _slanted(records: Sequence[Record]) -> str:
    return percent(share(record.slanted for record in records))


def _told(records: Sequence[Record]) -> str:
    return percent(share(record.verdict in DISAGREE for record in records))


def _somewhat(records: Sequence[Record]) -> str:
    return percent(share(record.verdict == "clean" and record.wider >= WORSE for record in records))


def _named(records: Sequence[Record]) -> str:
    return percent(share(record.named or record.grouped for record in records if record.wrong))


def _false_swaps(records: Sequence[Record]) -> str:
    return percent(share(record.swapped for record in records if len(record.wrong) < 2))


def _mirror(records: Sequence[Record]) -> str:
    gaps = [record.mirror for record in records if record.mirror is not None]
    return str(sum(gap > SAME for gap in gaps)) if gaps else "–"


HELD: dict[str, Cell] = {
    "jobs": lambda records: str(len(records)),
    "no saddle": lambda records: str(sum(not record.figures for record in records)),
    "bass %": lambda records: percent(held(records, "saddle.bass"), interval=True),
    "treble %": lambda records: percent(held(records, "saddle.treble"), interval=True),
    "±": lambda records: number(median_pm(records, "saddle.bass", "saddle.treble")),
    "95 %": lambda records: number(under_95(records, "saddle.bass", "saddle.treble")),
    "slant %": lambda records: percent(held(records, "slant"), interval=True),
    "slant ±": lambda records: number(median_pm(records, "slant")),
    "sheet %": lambda records: percent(held(records, *SHEET)),
    "sheet ±": lambda records: number(median_pm(records, *SHEET)),
    "front %": lambda records: percent(held(records, *FRONT)),
    "front ±": lambda records: number(median_pm(records, *FRONT)),
    "points %": lambda records: percent(points_held(records), interval=True),
    "told %": _told,
    "somewhat %": _somewhat,
}
"""How often the stated ± hold the truth, how wide they are (mm, the middle one), and what the saddle's errors stay
under in 95 of 100 (mm).
"""
SAID: dict[str, Cell] = {
    "innocent %": lambda records: percent(share(record.innocent for record in records)),
    "named %": _named,
    "false swap %": _false_swaps,
    "slanted %": _slanted,
    "difference": lambda records: number(false_difference(records)),
    "wrong": lambda records: str(sum(bool(record.wrong_figures) for record in records)),
    "silent": lambda records: str(sum(record.silent for record in records)),
    "mirror": _mirror,
    "verdicts": lambda records: ", ".join(f"{name} {count}" for name, count in verdicts(records)),
}
"""What was said of the readings, and whether it was right."""
FLAGGED: dict[str, Cell] = {
    "flagged": lambda records: str(len(_flagged(records))),
    "saddle %": lambda records: percent(held(_flagged(records), "saddle.bass", "saddle.treble"), interval=True),
    "slant %": lambda records: percent(held(_flagged(records), "slant"), interval=True),
    "front %": lambda records: percent(held(_flagged(records), *FRONT)),
    "±": lambda records: number(median_pm(_flagged(records), "saddle.bass", "saddle.treble")),
    "unflagged": lambda records: str(len(records) - len(_flagged(records))),
    "of these, saddle %": lambda records: percent(
        held([record for record in records if not record.accused], "saddle.bass", "saddle.treble"), interval=True
    ),
}
"""The same among the jobs in which a reading is accused, and among the others."""
CHECKED: dict[str, Cell] = {
    "checked, seen": lambda records: str(_seen(records, checked=True, seen=True)),
    "checked, not seen": lambda records: str(_seen(records, checked=True, seen=False)),
    "not checked, seen": lambda records: str(_seen(records, checked=False, seen=True)),
    "not checked, not seen": lambda records: str(_seen(records, checked=False, seen=False)),
}
"""Whether the saddle says that a gross error would show, against whether the misread fret was seen."""
TABLES = {"held": HELD, "said": SAID, "flagged": FLAGGED, "checked": CHECKED}


def _flagged(records: Sequence[Record]) -> list[Record]:
    return [record for record in records if record.accused]


def _seen(records: Sequence[Record], *, checked: bool, seen: bool) -> int:
    return sum(
        record.checked is checked and (record.named or record.grouped) is seen for record in records if record.wrong
    )


def rows(table: str, judged: dict[str, list[Record]]) -> list[list[str]]:
    """A table's heading and its rows, one a case."""
    cells = TABLES[table]
    return [
        ["case", *cells],
        *([case, *(cell(records) for cell in cells.values())] for case, records in judged.items()),
    ]


def aligned(lines: list[list[str]]) -> str:
    """Rows of text in columns."""
    widths = [max(len(line[i]) for line in lines) for i in range(len(lines[0]))]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip() for line in lines
    )


def page_table(lines: list[list[str]]) -> str:
    """Rows of text as a page has them, the heading first."""
    head, *body = (f"| {' | '.join(cells)} |\n" for cells in lines)
    return head + "|" + "---|" * len(lines[0]) + "\n" + "".join(body)


def figure_line(judged: dict[str, list[Record]]) -> str:
    """How it went, in one line: the least share of saddles held, and the worst of the rest."""
    saddles = {case: held(records, "saddle.bass", "saddle.treble") for case, records in judged.items()}
    counted = {case: found.value for case, found in saddles.items() if found.of}
    worst = min(counted, key=lambda case: counted[case]) if counted else ""
    wrong = sum(bool(record.wrong_figures) for records in judged.values() for record in records)
    innocent = {case: share(record.innocent for record in records).value for case, records in judged.items()}
    accuser = max(innocent, key=lambda case: innocent[case])
    silent = sum(record.silent for records in judged.values() for record in records)
    return (
        f"FIGURE: the saddle’s ± holds in {100 * counted.get(worst, math.nan):.1f} % at worst ({worst}); "
        f"innocents are accused in {100 * innocent[accuser]:.1f} % of the jobs at worst ({accuser}); "
        f"{wrong} jobs with a wrong figure; {silent} saddles beyond their ± without a word"
    )
