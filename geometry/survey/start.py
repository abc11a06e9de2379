"""Start places: where the points lie roughly, found from the readings themselves.

Two points with a known distance make a beginning. Then every point that enough readings tie to points already placed
goes where its loci cross, the surest first. Where two crossings fit alike the choice is kept as **open**; a side that
the person gave, a rough place drawn by hand, and the order of points along a neck close it.
"""

import cmath
from collections.abc import Mapping, Sequence

import msgspec

from geometry.survey.loci import Locus, crossings, loci
from geometry.survey.rows import Row
from geometry.survey.sides import Turn

CLEARLY = 25.0
"""Two crossings differ clearly where the sums of their squared misses (in inflated sigmas) differ by this."""
NEVER, RATHER_NOT = 1e6, 200.0
"""What a crossing on the wrong side costs: by the person's word, by the points' names."""
GOLDEN = 2.399963229728653
"""The golden angle in radians: guesses tried one after the other never fall on the same spot."""


class Choice(msgspec.Struct, frozen=True):
    """An open choice: the point, where it was put, and where it might be as well."""

    point: str
    here: complex
    there: complex


class Placed(msgspec.Struct, frozen=True):
    """Start places of all points, the choices left open in the order they came up, and the points merely guessed."""

    at: dict[str, complex]
    open: tuple[Choice, ...]
    guessed: frozenset[str]


class Sought(msgspec.Struct, frozen=True, eq=False):
    """What is known for the search: rows by point, turns by point, rough places, values read off one sheet."""

    rows: Sequence[Row]
    touching: dict[str, list[Row]]
    turning: dict[str, list[Turn]]
    near: Mapping[str, complex]
    sheet: dict[str, complex]


def sought(rows: Sequence[Row], points: Sequence[str], turns: Sequence[Turn], near: Mapping[str, complex]) -> Sought:
    """Gather what the search needs."""
    touching: dict[str, list[Row]] = {name: [] for name in points}
    sheet: dict[str, complex] = {}
    for row in rows:
        if row.form == "at":
            sheet[row.points[0]] = sheet.get(row.points[0], 0j) + row.value * row.lean
            continue
        for name in dict.fromkeys(row.points):
            touching[name].append(row)
    turning: dict[str, list[Turn]] = {name: [] for name in points}
    for turn in turns:
        for name in (turn.a, turn.b, turn.p):
            turning[name].append(turn)
    return Sought(rows, touching, turning, near, sheet)


def find(what: Sought, flipped: frozenset[str] = frozenset(), attempt: int = 0) -> Placed:
    """Place all points. `flipped` points take the other side of their open choice; `attempt` varies the guesses."""
    return _Search(what, flipped, attempt).run()


class _Search:
    """One run of the search: points placed so far, and the loci of those still to be placed."""

    def __init__(self, what: Sought, flipped: frozenset[str], attempt: int) -> None:
        self.what, self.flipped, self.attempt = what, flipped, attempt
        self.at: dict[str, complex] = {}
        self.waiting = dict.fromkeys(what.touching)
        self.loci: dict[str, list[Locus]] = {name: [] for name in what.touching}
        self.missing = {id(row): len(set(row.points)) for row in what.rows if row.points and row.form != "at"}
        self.fresh: dict[str, None] = {}
        self.open: list[Choice] = []
        self.guessed: set[str] = set()
        self.sheet_known = False

    def run(self) -> Placed:
        while self.waiting:
            if not (self._place_surest() or self._place_open() or self._begin()):
                self._guess()
        return Placed(self.at, tuple(self.open), frozenset(self.guessed))

    def put(self, name: str, z: complex) -> None:
        """Give a point its place, and the points tied to it their loci."""
        self.at[name] = z
        self.waiting.pop(name, None)
        for row in self.what.touching[name]:
            self.missing[id(row)] -= 1
            if self.missing[id(row)] == 1:
                last = next(point for point in row.points if point not in self.at)
                new = loci(row, last, self.at)
                if new:
                    self.loci[last] += new
                    self.fresh[last] = None
        self._read_sheet(name)

    def _read_sheet(self, name: str) -> None:
        sheet = self.what.sheet
        if self.sheet_known or name not in sheet:
            return
        both = [point for point in sheet if point in self.at]
        if len(both) < 2:
            return
        a, b = both[0], max(both, key=lambda point: abs(sheet[point] - sheet[both[0]]))
        if abs(sheet[b] - sheet[a]) < 1.0:
            return
        self.sheet_known = True
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
            if name in self.waiting and len(self.loci[name]) > 1:
                best = self._crossings(name)
                if best and (len(best) == 1 or best[1][0] - best[0][0] > CLEARLY):
                    self.put(name, best[0][1])
                    done = True
        return done

    def _crossings(self, name: str) -> list[tuple[float, complex]]:
        """The best crossings of a point's loci with their cost, the best first, no two near each other."""
        own = self.loci[name]
        turning = [
            turn
            for turn in self.what.turning[name]
            if all(point in self.at or point == name for point in (turn.a, turn.b, turn.p))
        ]
        found: list[tuple[float, complex]] = []
        first = own[0]
        pairs = [(first, other) for other in own[1:]] if len(own) < 4 else _pairs(own[:5])
        for one, two in pairs:
            for z in crossings(one, two):
                cost = sum(min(locus.miss(z) ** 2, 400.0) for locus in own)
                cost += self._against(name, z, turning)
                found.append((cost, z))
        found.sort(key=lambda pair: pair[0])
        best = found[:1]
        for cost, z in found[1:]:
            if abs(z - best[0][1]) > 5.0:
                best.append((cost, z))
                break
        return best

    def _against(self, name: str, z: complex, turning: list[Turn]) -> float:
        if not turning:
            return 0.0
        places = {**self.at, name: z}
        return sum((NEVER if turn.said else RATHER_NOT) for turn in turning if not turn.agrees(places))

    def _place_open(self) -> bool:
        """Place the point whose two crossings differ most, keep the choice open unless a rough place settles it."""
        best: tuple[float, str, list[tuple[float, complex]]] | None = None
        for name in self.waiting:
            if len(self.loci[name]) > 1:
                pair = self._crossings(name)
                if pair and (best is None or len(self.loci[name]) > best[0]):
                    best = (len(self.loci[name]), name, pair)
        if best is None:
            return False
        _, name, pair = best
        if len(pair) > 1 and pair[1][0] - pair[0][0] < NEVER / 2:
            here, there = pair[0][1], pair[1][1]
            rough = self._rough(name)
            if rough is not None and abs(there - rough) < abs(here - rough):
                here, there = there, here
            if name in self.flipped:
                here, there = there, here
            if rough is None or abs(here - rough) > 0.5 * abs(there - rough):
                self.open.append(Choice(name, here, there))
            self.put(name, here)
        else:
            self.put(name, pair[0][1])
        return True

    def _rough(self, name: str) -> complex | None:
        """A point's rough place, carried from the neck's frame to where the figure lies now."""
        near = self.what.near
        if name not in near:
            return None
        known = [point for point in near if point in self.at]
        nut = [self.at.get(f"nut.{side}") for side in ("left", "right")]
        far = [self.at.get(f"{station}.{side}") for station in ("end", "fret12") for side in ("left", "right")]
        there = [z for z in far if z is not None]
        if nut[0] is not None and nut[1] is not None and there:
            origin = (nut[0] + nut[1]) / 2
            ahead = -1j * (nut[0] - nut[1])
            return origin + near[name] * ahead / abs(ahead)
        if len(known) < 2:
            return None
        middle_now = sum(self.at[point] for point in known) / len(known)
        middle_then = sum(near[point] for point in known) / len(known)
        spin = sum((self.at[k] - middle_now) * (near[k] - middle_then).conjugate() for k in known)
        return middle_now + (near[name] - middle_then) * spin / abs(spin) if abs(spin) > 1e-6 else None

    def _begin(self) -> bool:
        """Begin a figure: with a distance whose ends have most in common, else with what was read off a sheet."""
        if self.at and any(self.loci[name] for name in self.waiting):
            return False
        offset = complex(0, 1500.0 * len(self.at)) if self.at else 0j
        ties = {name: {other for row in self.what.touching[name] for other in row.points} for name in self.waiting}
        ends = [
            (len(ties[row.points[0]] & ties[row.points[1]]), row.value, row)
            for row in self.what.rows
            if row.form == "distance" and all(point in self.waiting for point in row.points)
        ]
        if ends:
            row = max(ends, key=lambda end: end[:2])[2]
            self.put(row.points[0], offset)
            if row.points[1] in self.waiting:
                self.put(row.points[1], offset + row.value)
            return True
        sheet = [point for point in self.what.sheet if point in self.waiting]
        if sheet:
            self.sheet_known = True
            for point in sheet:
                if point in self.waiting:
                    self.put(point, self.what.sheet[point] + offset)
            return True
        return self._begin_straightedge(offset)

    def _begin_straightedge(self, offset: complex) -> bool:
        for row in self.what.rows:
            if row.form in ("laid", "meets"):
                a, b = row.points[-2:] if row.form == "laid" else row.points[:2]
                if a in self.waiting and b in self.waiting:
                    long = max((r.value for r in self.what.touching[b]), default=0.0)
                    self.guessed.update((b,))
                    self.put(a, offset)
                    self.put(b, offset + max(long, 100.0))
                    return True
        return False

    def _guess(self) -> None:
        """Put one point that too little is known of somewhere on its locus."""
        name = max(self.waiting, key=lambda point: (len(self.loci[point]), len(self.what.touching[point])))
        rough = self._rough(name)
        middle = sum(self.at.values()) / len(self.at) if self.at else 0j
        spin = cmath.exp(1j * GOLDEN * self.attempt)
        own = self.loci[name]
        z = middle + 150.0 * spin if rough is None else rough
        if own and own[0].size >= 0:
            d = (z - own[0].at) if rough is not None else spin
            z = own[0].at + own[0].size * (d / abs(d) if abs(d) > 1e-9 else 1)
        elif own:
            d = z - own[0].at
            z -= (d.real * own[0].normal.real + d.imag * own[0].normal.imag) * own[0].normal
        self.guessed.add(name)
        self.put(name, z)


def _pairs(own: list[Locus]) -> list[tuple[Locus, Locus]]:
    return [(one, two) for i, one in enumerate(own) for two in own[i + 1 :]]
