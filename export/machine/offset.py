"""Edges offset for the width of a beam or a cutter: outward round what is kept, inward in holes and slots.

Lines stay lines and arcs stay arcs: each piece is shifted by itself, gaps at corners are closed by arcs round the
corner, overlaps are cut at the crossing. The result is held against shapely's buffer of the same outline; where a piece
vanishes, shapely's outline is taken instead.
"""

import math
from collections.abc import Sequence

import msgspec
from shapely import Polygon

from export.drawing.flatten import Piece, ends, path_points, pieces
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Vertex
from export.drawing.straight import cross, crossing, direction
from export.errors import ExportError

TOUCH = 1e-6
"""Ends closer than this meet, mm."""
HAIR = 0.01
"""A cutter within this of a slot's width, mm, is as wide as the slot."""


class TooLarge(ExportError):
    """A tool that does not fit into an outline; `room` is how wide that is, mm."""

    def __init__(self, sentence: str, room: float) -> None:
        super().__init__(sentence)
        self.room = room


def offset_mark(mark: Mark, kept: Sequence[str], tool: float, *, is_cutter: bool) -> Mark:
    """A closed outline offset by half the tool's width (mm): outward where `kept` names it, inward elsewhere.

    Raises `TooLarge` where the tool does not fit.
    """
    assert isinstance(mark.shape, Circle | Path)
    by = tool / 2 if mark.of in kept else -tool / 2
    shape = offset(mark.shape, by, mark.of or mark.purpose, is_cutter=is_cutter)
    return msgspec.structs.replace(mark, shape=shape)


def offset(shape: Circle | Path, by: float, name: str, *, is_cutter: bool = True) -> Circle | Path:
    """A closed outline, larger by `by` mm all round, or smaller where it is negative. Raises `ExportError`."""
    if isinstance(shape, Circle):
        if shape.radius + by <= 0.01:
            raise TooLarge(_too_large(name, 2 * by, 2 * shape.radius, is_cutter), 2 * shape.radius)
        return Circle(shape.centre, shape.radius + by)
    ring = Polygon(path_points(shape, 0.002))
    if not ring.is_valid:
        raise ExportError(f"The outline of the {_said(name)} crosses itself and cannot be offset; look at its sizes")
    room = _narrowest(ring)
    if by < 0 and abs(2 * by + room) < HAIR:  # a cutter just as wide as its slot runs down the middle and back
        by = (HAIR - room) / 2
    wanted = ring.buffer(by, quad_segs=64)
    if wanted.is_empty or wanted.geom_type != "Polygon":
        raise TooLarge(_too_large(name, 2 * by, room, is_cutter), room)
    exact = _offset_pieces(shape, by)
    if exact is not None and _agrees(exact, wanted, by):
        return exact
    return Path(tuple((x, y, 0.0) for x, y in list(wanted.exterior.coords)[:-1]), closed=True)


def _too_large(name: str, tool: float, room: float, is_cutter: bool) -> str:
    what, mend = ("cutter", "choose a smaller one") if is_cutter else ("kerf", "look at its decimal point")
    return f"The {what} of {abs(tool):g} mm is too large for the {_said(name)}, which is {room:.2f} mm wide; {mend}"


def _said(of: str) -> str:
    return of.replace(":", " ")


def _narrowest(ring: Polygon) -> float:
    """The shorter side of the least upright or leaning rectangle around an outline."""
    corners = list(ring.minimum_rotated_rectangle.exterior.coords)  # type: ignore[attr-defined]  # it is a polygon
    return min(math.dist(corners[0], corners[1]), math.dist(corners[1], corners[2]))


def _agrees(path: Path, wanted: Polygon, by: float) -> bool:
    points = path_points(path, 0.002)
    if len(points) < 3:
        return False
    made = Polygon(points)
    return made.is_valid and made.symmetric_difference(wanted).area < 0.003 * wanted.length + abs(by) * 0.01


def _offset_pieces(path: Path, by: float) -> Path | None:
    """The outline shifted piece by piece; None where a piece vanishes."""
    ring = Polygon(path_points(path, 0.01))
    right = by if ring.exterior.is_ccw else -by
    shifted: list[tuple[Piece, XY]] = []
    for piece in pieces(path):
        moved = _shift(piece, right)
        if moved is None:
            return None
        shifted.append((moved, ends(piece)[1]))
    trimmed = [piece for piece, _ in shifted]
    joints: list[Arc | None] = [None] * len(shifted)
    for i, (_, corner) in enumerate(shifted):
        j = (i + 1) % len(shifted)
        stop, start = ends(trimmed[i])[1], ends(trimmed[j])[0]
        if math.dist(stop, start) <= TOUCH:
            continue
        turn = cross(_direction(trimmed[i], last=True), _direction(trimmed[j], last=False))
        if turn * right > 0:
            joints[i] = _round(corner, stop, start, right)
        else:
            at = _crossing(trimmed[i], trimmed[j], corner)
            if at is None:
                return None
            trimmed[i], trimmed[j] = _until(trimmed[i], at), _from(trimmed[j], at)
    vertices: list[Vertex] = []
    for piece, joint in zip(trimmed, joints, strict=True):
        for part in (piece, joint):
            if part is not None:
                bulge = math.tan(part.sweep / 4) if isinstance(part, Arc) else 0.0
                vertices.append((*ends(part)[0], bulge))
    return Path(tuple(vertices), closed=True)


def _shift(piece: Piece, right: float) -> Piece | None:
    if isinstance(piece, Arc):
        radius = piece.radius + right * (1 if piece.sweep > 0 else -1)
        return Arc(piece.centre, radius, piece.start, piece.sweep) if radius > TOUCH else None
    ux, uy = _direction(piece, last=False)
    dx, dy = right * uy, -right * ux
    return Line((piece.a[0] + dx, piece.a[1] + dy), (piece.b[0] + dx, piece.b[1] + dy))


def _direction(piece: Piece, *, last: bool) -> XY:
    if isinstance(piece, Line):
        return direction(piece.a, piece.b)
    way = 1.0 if piece.sweep > 0 else -1.0
    angle = piece.start + (piece.sweep if last else 0.0)
    return -way * math.sin(angle), way * math.cos(angle)


def _round(corner: XY, start: XY, stop: XY, right: float) -> Arc:
    """The arc round a corner from one shifted piece to the next."""
    a, b = (math.atan2(p[1] - corner[1], p[0] - corner[0]) for p in (start, stop))
    sweep = (b - a) % math.tau if right > 0 else -((a - b) % math.tau)
    return Arc(corner, abs(right), a, sweep)


def _crossing(one: Piece, other: Piece, near: XY) -> XY | None:
    """Where two shifted pieces cross, nearest to the corner they come from."""
    if isinstance(one, Line) and isinstance(other, Line):
        at = crossing(one.a, direction(one.a, one.b), other.a, direction(other.a, other.b))
        found = [] if at is None else [at]
    elif isinstance(one, Arc) and isinstance(other, Arc):
        found = _arc_arc(one, other)
    else:
        line, arc = (one, other) if isinstance(one, Line) else (other, one)
        assert isinstance(line, Line)
        assert isinstance(arc, Arc)
        found = _line_arc(line, arc)
    return min(found, key=lambda at: math.dist(at, near), default=None)


def _line_arc(line: Line, arc: Arc) -> list[XY]:
    ux, uy = direction(line.a, line.b)
    dx, dy = line.a[0] - arc.centre[0], line.a[1] - arc.centre[1]
    half = -(dx * ux + dy * uy)
    square = half * half - (dx * dx + dy * dy - arc.radius**2)
    if square < 0:
        return []
    return [(line.a[0] + (half + s) * ux, line.a[1] + (half + s) * uy) for s in (math.sqrt(square), -math.sqrt(square))]


def _arc_arc(one: Arc, other: Arc) -> list[XY]:
    ax, ay = one.centre
    d = math.dist(one.centre, other.centre)
    if d < TOUCH:
        return []
    along = (d * d + one.radius**2 - other.radius**2) / (2 * d)
    square = one.radius**2 - along * along
    if square < 0:
        return []
    ux, uy = direction(one.centre, other.centre)
    rise = math.sqrt(square)
    return [(ax + along * ux - s * uy, ay + along * uy + s * ux) for s in (rise, -rise)]


def _until(piece: Piece, at: XY) -> Piece:
    return Line(piece.a, at) if isinstance(piece, Line) else _arc_to(piece, piece.start, _angle(piece, at))


def _from(piece: Piece, at: XY) -> Piece:
    if isinstance(piece, Line):
        return Line(at, piece.b)
    return _arc_to(piece, _angle(piece, at), piece.start + piece.sweep)


def _angle(arc: Arc, at: XY) -> float:
    return math.atan2(at[1] - arc.centre[1], at[0] - arc.centre[0])


def _arc_to(arc: Arc, start: float, stop: float) -> Arc:
    sweep = (stop - start) % math.tau if arc.sweep > 0 else -((start - stop) % math.tau)
    return Arc(arc.centre, arc.radius, start, sweep)


def round_corners(path: Path, tool: float) -> int:
    """How many inside corners of a slot or hole stay round because the tool's radius does not reach into them."""
    parts = list(pieces(path))
    ring = Polygon(path_points(path, 0.01))
    way = 1.0 if ring.exterior.is_ccw else -1.0
    sharp = 0
    for piece, follower in zip(parts, [*parts[1:], parts[0]], strict=True):
        turn = way * cross(_direction(piece, last=True), _direction(follower, last=False))
        sharp += turn > 0.01
        sharp += isinstance(piece, Arc) and way * piece.sweep > 0 and piece.radius < tool / 2
    return sharp
