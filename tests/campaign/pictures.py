"""The campaign's two pictures, as plain SVG: shares with their intervals, and stated ± beside true errors.

Each quantity has a shape of its own besides its colour; the two colours differ in lightness as well.
"""

from collections.abc import Callable, Sequence
from xml.sax.saxutils import escape

from tests.campaign.counting import held, median_pm, under_95
from tests.campaign.judging import Record

PAPER, INK, FAINT, ONE, TWO = "#FBFAF5", "#1F2A33", "#C9CDD0", "#0B6B66", "#B5651D"
LEFT, WIDE, STEP, TOP = 230, 460, 26, 62
SADDLE = ("saddle.bass", "saddle.treble")
AIM = 0.95
Mark = Callable[[float, float, str], str]


def held_picture(judged: dict[str, list[Record]]) -> str:
    """How often the ± of saddle and slant hold the truth, with 95 % intervals, a line a case."""
    shares = {
        case: (held(records, *SADDLE), held(records, "slant"))
        for case, records in judged.items()
        if held(records, *SADDLE).of
    }
    least = min((found.interval[0] for both in shares.values() for found in both), default=0.0)
    low = 10 * int(10 * least) / 100

    def x(value: float) -> float:
        return LEFT + WIDE * (value - low) / (1 - low)

    marks = [*_scale([(x(tick / 100), f"{tick} %") for tick in range(round(100 * low), 101, 10)], len(shares))]
    marks.append(_line(x(AIM), TOP - 8, x(AIM), TOP + STEP * len(shares), INK, dash=True))
    marks.append(_text(x(AIM), TOP - 14, "95 %", "middle"))
    for row, (case, both) in enumerate(shares.items()):
        y = TOP + STEP * (row + 0.5)
        marks.append(_text(LEFT - 12, y + 4, case, "end"))
        for found, colour, dy, mark in zip(both, (ONE, TWO), (-5, 5), (_disc, _diamond), strict=True):
            marks.append(_line(x(found.interval[0]), y + dy, x(found.interval[1]), y + dy, colour))
            marks.append(mark(x(found.value), y + dy, colour))
    marks += _legend(("saddle, bass and treble", ONE, _disc), ("slant", TWO, _diamond))
    return _sheet(marks, len(shares), "How often the stated ± holds the truth")


def width_picture(judged: dict[str, list[Record]]) -> str:
    """The saddle's stated ± beside what its errors stay under in 95 of 100, a line a case."""
    pairs = {
        case: (median_pm(records, *SADDLE), under_95(records, *SADDLE))
        for case, records in judged.items()
        if held(records, *SADDLE).of
    }
    most = int(max((max(both) for both in pairs.values()), default=1.0)) + 1

    def x(value: float) -> float:
        return LEFT + WIDE * value / most

    ticks = range(0, most + 1, max(1, most // 8))
    marks = [*_scale([(x(tick), f"{tick} mm") for tick in ticks], len(pairs))]
    for row, (case, (stated, true)) in enumerate(pairs.items()):
        y = TOP + STEP * (row + 0.5)
        marks.append(_text(LEFT - 12, y + 4, case, "end"))
        marks.append(_line(x(stated), y, x(true), y, FAINT))
        marks += [_diamond(x(true), y, TWO), _disc(x(stated), y, ONE)]
    marks += _legend(("± stated (the middle one)", ONE, _disc), ("95 of 100 errors are smaller", TWO, _diamond))
    return _sheet(marks, len(pairs), "The saddle’s place: what is stated, and how far off it is")


def _scale(ticks: Sequence[tuple[float, str]], lines: int) -> list[str]:
    bottom = TOP + STEP * lines
    found = [_line(at, TOP, at, bottom, FAINT, thin=True) for at, _ in ticks]
    return found + [_text(at, bottom + 18, said, "middle") for at, said in ticks]


def _legend(*entries: tuple[str, str, Mark]) -> list[str]:
    found, at = [], LEFT
    for said, colour, mark in entries:
        found += [mark(at + 6, 38, colour), _text(at + 18, 42, said)]
        at += 30 + 8 * len(said)
    return found


def _line(x: float, y: float, x2: float, y2: float, colour: str, *, thin: bool = False, dash: bool = False) -> str:
    more = ' stroke-dasharray="4 3"' if dash else ""
    width = 1 if thin or dash else 2
    return (
        f'<line x1="{x:.1f}" y1="{y:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="{colour}" stroke-width="{width}"{more}/>'
    )


def _disc(x: float, y: float, colour: str) -> str:
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4.5" fill="{colour}"/>'


def _diamond(x: float, y: float, colour: str) -> str:
    corners = " ".join(f"{x + dx:.1f},{y + dy:.1f}" for dx, dy in ((0, -6), (6, 0), (0, 6), (-6, 0)))
    return f'<polygon points="{corners}" fill="{PAPER}" stroke="{colour}" stroke-width="2"/>'


def _text(x: float, y: float, said: str, anchor: str = "start", size: int = 13) -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" text-anchor="{anchor}" fill="{INK}">{escape(said)}</text>'


def _sheet(marks: Sequence[str], lines: int, title: str) -> str:
    width, height = LEFT + WIDE + 40, TOP + STEP * lines + 34
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
        f'font-family="sans-serif" role="img">'
    )
    paper = f'<rect width="{width}" height="{height}" fill="{PAPER}"/>'
    return "\n".join(
        [head, f"<title>{escape(title)}</title>", paper, _text(16, 20, title, size=15), *marks, "</svg>\n"]
    )
