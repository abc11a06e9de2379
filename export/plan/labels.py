"""Labels that never overlap: each takes the first free place near what it names, with a leader where it stands off.

The same labels in the same order always come to lie in the same places. A label for which there is no room is left
out. While something is moved or typed, labels may **stay**: each keeps where it stands by what it names. Everything
here happens in the screen's paper mm, where words stand upright.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

import msgspec

from export.drawing.clip import clip_line
from export.drawing.flatten import Box
from export.drawing.marks import XY, Line, Mark, Text, Tone
from export.drawing.room.occupied_cells import OccupiedCells
from export.drawing.straight import cross_each_other
from export.drawing.typeface import width
from export.plan.plan_view import PlanView

HEIGHT = 2.0
"""A label's capital height in paper mm."""
_RING, _BETWEEN = (
    tuple((math.cos(math.radians(a)), math.sin(math.radians(a))) for a in some)
    for some in ((0, 35, -35, 90, -90, 180, 145, -145), (17, -17, 53, -53, 72, -72, 108, -108, 127, -127, 163, -163))
)
_REACHES = (1.6, 4.5, 9.0, 15.0)
_FARTHER = (22.0, 31.0)
"""How far off words may stand besides where little else is seen."""


class Label(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """Words for a place (instrument mm). `prefer`: the screen direction tried first, in degrees.

    `clear`: how far it stands off at least, paper mm. `leader`: whether it may stand farther off with a line to it, and
    `farthest` how far at most. `led`: whether a line leads up to the place itself however near it stands.
    `short`: what is said where there is no room for all of the words. `needed`: they stand across the edge of a page
    rather than nowhere. `ahead`: never on the other side of the place than this screen direction.
    `elsewhere`: other places of the same thing that they may stand beside.
    """

    at: XY
    words: str
    of: str
    tone: Tone = "worked out"
    height: float = HEIGHT
    bold: bool = False
    prefer: float = 0.0
    clear: float = 0.0
    leader: bool = True
    led: bool = False
    farthest: float = math.inf
    short: str = ""
    needed: bool = False
    ahead: float | None = None
    elsewhere: tuple[XY, ...] = ()


class Grounds(NamedTuple):
    """Occupied cells, paper mm: what no words may cover, what they cover only at need, and what only the needed ones
    cover, at need.
    """

    occupied: OccupiedCells
    edges: OccupiedCells | None = None
    pages: OccupiedCells | None = None


class LabelPlace(NamedTuple):
    """Where words stand by what they name: the way on the screen, how far off (paper mm), whether they are the short
    ones, and beside which of its places.
    """

    way: XY
    reach: float
    short: bool
    beside: int = 0


Key = tuple[str, int]
LabelPlaces = Mapping[Key, LabelPlace | None]
"""Where each label stands; None: it found no room. A label goes by what it stands for, and how many came before it."""


def labels_by_key(labels: Iterable[Label]) -> dict[Key, Label]:
    """Labels by their keys."""
    count: dict[str, int] = {}
    found: dict[Key, Label] = {}
    for label in labels:
        count[label.of] = before = count.get(label.of, -1) + 1
        found[label.of, before] = label
    return found


def place_labels(labels: Mapping[Key, Label], view: PlanView, grounds: Grounds) -> tuple[list[Mark], LabelPlaces]:
    """The labels that find room, first come first served, and where all of them stand."""
    laid = _Laid(grounds, [], [])
    places = {key: _first_place(label, view, laid) if _in_sight(label, view) else None for key, label in labels.items()}
    return kept_labels(labels, view, places), places


def kept_labels(labels: Mapping[Key, Label], view: PlanView, places: LabelPlaces) -> list[Mark]:
    """The labels where they stand by what they name, whatever else has moved."""
    return [
        mark
        for key, label in labels.items()
        if (place := places.get(key)) is not None
        for mark in _marks(view, label, place)
    ]


def may_stay(labels: Mapping[Key, Label], view: PlanView, places: LabelPlaces) -> bool:
    """Whether all labels in sight have their places already; what is gone leaves no gap that matters."""
    return not any(_in_sight(labels[key], view) for key in labels.keys() - places.keys())


class _Laid(NamedTuple):
    """The grounds, and the words and leaders that have their places already, paper mm."""

    grounds: Grounds
    words: list[Box]
    leaders: list[tuple[XY, XY]]


def _in_sight(label: Label, view: PlanView) -> bool:
    return any(_is_seen(at, view) for at in _places_of(label))


def _places_of(label: Label) -> tuple[XY, ...]:
    return label.at, *label.elsewhere


def _is_seen(at: XY, view: PlanView) -> bool:
    (x, y), window = view.seen(at), view.seen_window
    return window is None or (window.x0 <= x <= window.x1 and window.y0 <= y <= window.y1)


def _first_place(label: Label, view: PlanView, laid: _Laid) -> LabelPlace | None:
    """The first place for a label off the edges and with no leader across another, or on them, or across; the same on
    pages for one that is needed; None where there is none.
    """
    _, edges, pages = laid.grounds
    tries: list[tuple[tuple[OccupiedCells | None, ...], bool]] = [((edges, pages), False)] if edges is not None else []
    tries += [((pages,), False), ((pages,), True)]
    if label.needed and pages is not None:
        tries += [((), False), ((), True)]
    for off, across in tries:
        place = _place_off(label, view, laid, off, across=across)
        if place is not None:
            return place
    return None


def _place_off(
    label: Label, view: PlanView, laid: _Laid, off: Sequence[OccupiedCells | None], *, across: bool
) -> LabelPlace | None:
    """The first place with room for a label's words, or for the short ones; its leader `across` others at need."""
    for short in (False, True) if label.short else (False,):
        for way, reach, beside in _tries(label, view):
            place = LabelPlace(way, reach, short, beside)
            box, leader = _laid_out(label, place, view)
            if (
                (view.seen_window is None or view.seen_window.holds(box))
                and laid.grounds.occupied.is_free(box.grown(view.clear))
                and all(cells is None or cells.is_free(box.grown(view.clear)) for cells in off)
                and not any(clip_line(*other, box) for other in laid.leaders)
                and not (leader and any(clip_line(*leader, other) for other in laid.words))
                and (across or not (leader and any(cross_each_other(leader, other) for other in laid.leaders)))
            ):
                laid.grounds.occupied.occupy(box)
                laid.words.append(box)
                if leader:
                    laid.leaders.append(leader)
                return place
    return None


def _said(label: Label, place: LabelPlace) -> str:
    return (place.short and label.short) or label.words


def _laid_out(label: Label, place: LabelPlace, view: PlanView) -> tuple[Box, tuple[XY, XY] | None]:
    """The words' ground and the line to them, paper mm."""
    at = view.seen(_places_of(label)[place.beside])
    wide = width(_said(label, place), label.height, label.bold)
    return _box_at(at, place.way, place.reach, wide, label.height), _leader(label, view, at, place)


@lru_cache(maxsize=64)
def _ring(prefer: float, more: bool, ahead: float | None) -> tuple[XY, ...]:
    """The directions to try, the preferred one (degrees) first, and `more` of them between; or those `ahead` alone."""
    turn = math.radians(prefer)
    cos, sin = math.cos(turn), math.sin(turn)
    ways = ((x * cos - y * sin, x * sin + y * cos) for x, y in (*_RING, *(_BETWEEN if more else ())))
    if ahead is None:
        return tuple(ways)
    onward = math.cos(math.radians(ahead)), math.sin(math.radians(ahead))
    return tuple(way for way in ways if way[0] * onward[0] + way[1] * onward[1] > -0.1)


def _tries(label: Label, view: PlanView) -> Iterable[tuple[XY, float, int]]:
    """Directions and reaches by the first place that a label names, then by the others of them that are in sight."""
    ring, clear = _ring(label.prefer, view.on_paper, label.ahead), label.clear + view.clear
    far = _REACHES + (_FARTHER if view.close_up or view.on_paper else ())
    reaches = far[1 if label.led else 0 :] if label.leader else _REACHES[:1]
    seen = [beside for beside, at in enumerate(_places_of(label)) if _is_seen(at, view)]
    near = [reach for reach in reaches if reach <= label.farthest]
    return ((way, reach + clear, beside) for beside in seen for reach in near for way in ring)


def _box_at(at: XY, way: XY, reach: float, wide: float, high: float) -> Box:
    """The words' ground when they stand off in a direction: their near side touches the reach."""
    x, y = at[0] + way[0] * reach, at[1] + way[1] * reach
    x0 = x - wide * (1 - _share(way[0]))
    y0 = y - high * (1 - _share(way[1]))
    return Box(x0, y0 - 0.2 * high, x0 + wide, y0 + 1.1 * high)


def _share(direction: float) -> float:
    """How much of the words lies ahead of where they stand: all, half or none."""
    return 1.0 if direction > 0.4 else 0.0 if direction < -0.4 else 0.5


def _leader(label: Label, view: PlanView, at: XY, place: LabelPlace) -> tuple[XY, XY] | None:
    """The line from what is named to words that stand off it, paper mm; None where they stand beside it."""
    way, reach = place.way, place.reach
    if reach - label.clear - view.clear <= _REACHES[0] + 1e-9:
        return None
    near, far = 0.0 if label.led else 0.8, reach - 0.7
    return (at[0] + way[0] * near, at[1] + way[1] * near), (at[0] + way[0] * far, at[1] + way[1] * far)


def _marks(view: PlanView, label: Label, place: LabelPlace) -> list[Mark]:
    box, leader = _laid_out(label, place, view)
    text = Text((box.x0, box.y0 + 0.2 * label.height), _said(label, place), label.height, 0.0, "sb", label.bold)
    placed = view.from_screen.shape(
        msgspec.structs.replace(text, at=(text.at[0] / view.scale, text.at[1] / view.scale))
    )
    marks = [Mark(shape=placed, purpose="note", of=label.of, tone=label.tone)]
    if leader is not None:
        line = Line(view.unseen(leader[0]), view.unseen(leader[1]))
        marks.append(Mark(shape=line, purpose="dimension", of=label.of, tone="quiet", weight=0.8))
    return marks
