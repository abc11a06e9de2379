"""Provisional places, which the fit starts from: where the points lie roughly, found from the readings themselves.

Two points with a known distance make a beginning. Then every point that enough readings tie to points already placed
goes where its loci cross, the surest first. Where two crossings fit alike the choice is kept as **open**; a side that
the person gave, a rough place drawn by hand, and the order of points along a neck close it.
"""

import cmath
import math
from collections.abc import Mapping
from itertools import combinations

import msgspec

from geometry.survey.rows.forms import locus
from geometry.survey.rows.loci import Locus, cost, crossings, is_line, parts
from geometry.survey.rows.row import Row
from geometry.survey.start.search_input import SearchInput

CLEARLY = 25.0
"""Two crossings differ clearly where their costs differ by this."""
NEVER, RATHER_NOT = 1e6, 200.0
"""What a crossing on the wrong side costs: by the person's word, by names, habits, or for lying on another point."""
GOLDEN = 2.399963229728653
"""The golden angle in radians: guesses tried one after the other never fall on the same spot."""
APART = 1.0
"""Two places nearer than this (mm) are taken for one."""

Ranked = list[tuple[float, complex]]


class Choice(msgspec.Struct, frozen=True):
    """An open choice: the point, where it was put, where it might be as well, and the rows that left it open."""

    point: str
    here: complex
    there: complex
    rows: tuple[Row, ...]


class ProvisionalPlaces(msgspec.Struct, frozen=True):
    """Start places of all points, the choices left open in the order they came up, the points placed from the first
    guess on (`soft`), and what the search was asked: which points `flipped`, which attempt.
    """

    at: dict[str, complex]
    open: tuple[Choice, ...]
    soft: frozenset[str]
    flipped: frozenset[str]
    attempt: int


def provisional_places(what: SearchInput, flipped: frozenset[str] = frozenset(), attempt: int = 0) -> ProvisionalPlaces:
    """Place all points, `flipped` ones on the other side of their open choice; `attempt` varies the beginning."""
    return _Search(what, flipped, attempt).run()


def rough_place(near: Mapping[str, complex], at: Mapping[str, complex], name: str) -> complex | None:
    """A point's rough place, carried from the neck's frame to where the figure lies now; None if that is not known."""
    if name not in near:
        return None
    left, right = at.get("nut.left"), at.get("nut.right")
    if left is not None and right is not None and abs(left - right) > APART and len(at) > 2:
        ahead = -1j * (left - right)
        return (left + right) / 2 + near[name] * ahead / abs(ahead)
    known = [point for point in near if point in at and point != name]
    if len(known) < 2:
        return None
    now, then = (sum(places[point] for point in known) / len(known) for places in (at, near))
    spin = sum(((at[k] - now) * (near[k] - then).conjugate() for k in known), 0j)
    return now + (near[name] - then) * spin / abs(spin) if abs(spin) > APART else None


class _Search:
    """One run of the search: the places given so far, and the loci of the points still waiting for one."""

    def __init__(self, what: SearchInput, flipped: frozenset[str], attempt: int) -> None:
        self.what, self.flipped, self.attempt = what, flipped, attempt
        self.at: dict[str, complex] = {}
        self.waiting = dict.fromkeys(what.touching)
        self.loci: dict[str, list[Locus]] = {name: [] for name in what.touching}
        self.missing = {id(row): set(row.points) for row in what.rows}
        self.fresh: dict[str, None] = {}
        self.open: list[Choice] = []
        self.soft: set[str] = set()
        self.cells: dict[tuple[int, int], list[complex]] = {}
        self.laid: set[int] = set()

    def run(self) -> ProvisionalPlaces:
        while self.waiting:
            if not (self._place_surest() or self._place_open() or self._begin()):
                self._guess()
        return ProvisionalPlaces(self.at, tuple(self.open), frozenset(self.soft), self.flipped, self.attempt)

    def put(self, name: str, z: complex) -> None:
        """Give a point its place, and the points tied to it their loci."""
        self.at[name] = z
        self.cells.setdefault(_cell(z), []).append(z)
        self.waiting.pop(name, None)
        self.fresh.pop(name, None)
        if self.soft:
            self.soft.add(name)
        for row in self.what.touching[name]:
            missing = self.missing[id(row)]
            missing.discard(name)
            if len(missing) == 1:
                (last,) = missing
                new = locus(row, last, self.at)
                if new is not None:
                    self.loci[last].append(new)
                    self.fresh[last] = None
        for number, sheet in enumerate(self.what.sheets):
            if name in sheet and number not in self.laid:
                self._lay_sheet(number, sheet)

    def _lay_sheet(self, number: int, sheet: dict[str, complex]) -> None:
        """Once two points of a sheet have their places, the others follow."""
        a, *rest = (point for point in sheet if point in self.at)
        b = max(rest, key=lambda point: abs(sheet[point] - sheet[a]), default=a)
        if abs(sheet[b] - sheet[a]) < APART or abs(self.at[b] - self.at[a]) < APART:
            return
        self.laid.add(number)
        turn = (self.at[b] - self.at[a]) / (sheet[b] - sheet[a])
        turn /= abs(turn)
        for point in [point for point in sheet if point in self.waiting]:
            self.put(point, self.at[a] + turn * (sheet[point] - sheet[a]))

    def _place_surest(self) -> bool:
        """Place every point with one clear crossing; whether there was any."""
        done = False
        while self.fresh:
            name = next(iter(self.fresh))
            del self.fresh[name]
            ranked = self._crossings(name)
            if len(ranked) == 1 or (ranked and ranked[1][0] - ranked[0][0] > CLEARLY):
                self.put(name, ranked[0][1])
                done = True
        return done

    def _crossings(self, name: str) -> Ranked:
        """The best crossing of a point's loci and the next best elsewhere, with their costs."""
        own = self.loci[name]
        if len(own) < 2:
            return []
        if len(own) == 2 and is_line(own[0]) and is_line(own[1]):
            return [(0.0, z) for z in crossings(*own)]  # two lines cross once, and nothing is left to compare
        found: Ranked = []
        for one, two in combinations(_unlike(own)[:5], 2):
            pair = [(cost(z, own), z) for z in crossings(one, two)]
            found += pair
            if len(pair) == 2 and abs(pair[0][0] - pair[1][0]) > CLEARLY and min(pair)[0] < 9 * len(own):
                break
        found.sort(key=_cost_of)
        ranked = found[:1] + next(([other] for other in found[1:] if abs(other[1] - found[0][1]) > 5.0), [])
        if len(ranked) == 2 and self.what.turning[name]:
            ranked = sorted(((value + self._against(name, z), z) for value, z in ranked), key=_cost_of)
        if len(ranked) == 2 and ranked[1][0] - ranked[0][0] <= CLEARLY:
            ranked = sorted(((value + self._taken(z), z) for value, z in ranked), key=_cost_of)
        return ranked

    def _against(self, name: str, z: complex) -> float:
        """What sides and the order along the neck say against a place."""
        against, at = 0.0, self.at
        at[name] = z
        for turn in self.what.turning[name]:
            if turn.a in at and turn.b in at and turn.p in at and not turn.agrees(at):
                against += NEVER if turn.said else RATHER_NOT
        del at[name]
        return against

    def _taken(self, z: complex) -> float:
        """What it costs to lie on another point."""
        i, j = _cell(z)
        near = (other for k in range(9) for other in self.cells.get((i + k // 3 - 1, j + k % 3 - 1), ()))
        return RATHER_NOT * any(abs(z - other) < APART for other in near)

    def _place_open(self) -> bool:
        """Place the point with most loci though it might lie elsewhere as well."""
        for name in sorted(self.waiting, key=lambda name: -len(self.loci[name])):
            ranked = self._crossings(name)
            if ranked:
                self.put(name, self._choose(name, *(z for _, z in ranked)))
                return True
        return False

    def _choose(self, name: str, here: complex, there: complex | None = None) -> complex:
        if there is None:
            return here
        near = self._rough(name)
        if near is not None and abs(there - near) < abs(here - near):
            here, there = there, here
        settled = name in self.what.near and near is not None and abs(here - near) < 0.5 * abs(there - near)
        if name in self.flipped:
            here, there = there, here
        if not settled:
            held = [row for row in self.what.touching[name] if all(p in self.at or p == name for p in row.points)]
            self.open.append(Choice(name, here, there, tuple(held)))
        return here

    def _begin(self) -> bool:
        """Begin a figure: with the distance whose ends have most in common, else a sheet, else a straightedge."""
        if any(self.loci[name] for name in self.waiting):
            return False
        offset = 1500j * len(self.at)
        whole = [row for row in self.what.rows if self.at.keys().isdisjoint(row.points)]
        ends = [row for row in whole if row.form == "distance"]
        if ends:
            both = dict.fromkeys(point for row in ends for point in row.points)
            ties = {name: {other for row in self.what.touching[name] for other in row.points} for name in both}
            ends.sort(key=lambda row: (-len(ties[row.points[0]] & ties[row.points[1]]), -row.value))
            row = ends[self.attempt % len(ends)]
            self._put_both(row.points[0], row.points[1], offset, row.value)
            return True
        for sheet in self.what.sheets:
            alone = [point for point in sheet if point in self.waiting]
            for point in alone:
                if point in self.waiting:
                    self.put(point, sheet[point] + offset)
            if alone:
                return True
        for row in whole:
            if row.form in ("laid", "meets"):
                a, b = row.points[2:] if row.form == "laid" else row.points[:2]
                self.soft.add(b)
                self._put_both(a, b, offset, max(other.value for other in self.what.touching[b]) + 100.0)
                return True
        return False

    def _put_both(self, a: str, b: str, at: complex, apart: float) -> None:
        self.put(a, at)
        if b in self.waiting:
            self.put(b, at + apart)

    def _guess(self) -> None:
        """Put one point that too little is known of somewhere on its locus."""
        name = max(self.waiting, key=lambda point: (len(self.loci[point]), len(self.what.touching[point])))
        near = self._rough(name)
        spin = cmath.exp(1j * GOLDEN * self.attempt) * self._tailward()
        z = sum(self.at.values()) / max(len(self.at), 1) + 150.0 * spin if near is None else near
        for at, size, normal, _ in (parts(one)[0] for one in self.loci[name][:1]):
            d = z - at
            if size < 0:
                z -= (d.real * normal.real + d.imag * normal.imag) * normal
            elif near is not None and abs(d) > 0:
                z = at + size * d / abs(d)
            else:
                z = self._on_circle(name, at, size, spin)
        self.soft.add(name)
        self.put(name, z)

    def _rough(self, name: str) -> complex | None:
        """A point's rough place, the person's before the usual one."""
        return rough_place(
            self.what.near if name in self.what.near else {**self.what.usual, **self.what.near}, self.at, name
        )

    def _on_circle(self, name: str, at: complex, size: float, spin: complex) -> complex:
        """A place on a circle that nothing speaks against, well away from the line to the other points."""
        middle = sum(self.at.values()) / len(self.at) - at
        ahead = middle / abs(middle) if abs(middle) > APART else spin
        places = [at + size * spin * cmath.exp(1j * GOLDEN * k) for k in range(16)]
        in_line = {z: abs(((z - at) * ahead.conjugate()).real) / max(size, APART) for z in places}
        return min(places, key=lambda z: self._against(name, z) + self._taken(z) + in_line[z])

    def _tailward(self) -> complex:
        """The way to the tail, as far as two points on an edge of the board tell it."""
        for side in ("left", "right"):
            nut, end = self.at.get(f"nut.{side}"), self.at.get(f"end.{side}")
            if nut is not None and end is not None and abs(end - nut) > APART:
                return (end - nut) / abs(end - nut)
        return 1 + 0j


def _cell(z: complex) -> tuple[int, int]:
    """The square of a chequered top, as wide as two points must be apart, that a place lies in."""
    return (math.floor(z.real / APART), math.floor(z.imag / APART)) if cmath.isfinite(z) else (0, 0)


def _unlike(loci: list[Locus]) -> list[Locus]:
    """The loci, those first that can cross each other: of circles round one point, or of parallel lines, one."""
    first = {locus.at if locus.size >= 0 else locus.normal: locus for locus in reversed(loci)}
    if len(first) == len(loci) or len(loci) <= 5:
        return loci
    chosen = {id(locus) for locus in first.values()}
    return sorted(loci, key=lambda locus: id(locus) not in chosen)


def _cost_of(pair: tuple[float, complex]) -> float:
    return pair[0]
