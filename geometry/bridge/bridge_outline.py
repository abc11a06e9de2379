"""Bridge outlines in the bridge's own frame: front to back is +x from the front edge, +y runs to the left wing."""

import math
from functools import lru_cache

import numpy as np

from geometry.bridge.belly import SEEN, belly, depth
from geometry.frame import Array
from geometry.job import Bridge
from geometry.job.seating import BELLY_REACH
from geometry.layout import XY, Vertex
from geometry.units import mm


@lru_cache(maxsize=64)
def outline(bridge: Bridge) -> tuple[Vertex, ...]:
    """The closed outline, counter-clockwise from the front left corner, with bulges."""
    half, width = mm(bridge.length) / 2, mm(bridge.width)
    if is_traced(bridge):
        return tuple((x, y, 0.0) for x, y in _traced(bridge))
    front: list[Vertex] = [(0.0, half, 0.0), (0.0, -half, 0.0)]
    back: list[Vertex] = [(width, -half, 0.0), (width, half, 0.0)]
    curve, out = belly(bridge), depth(bridge)
    if curve is not None:
        x, y = curve.joint
        hollow, crown = -math.tan(curve.angle / 4), math.tan(curve.angle / 2)
        if bridge.outline == "belly":
            round_: list[Vertex] = [(width, -curve.reach, hollow), (x, -y, crown), (x, y, hollow)]
            back[1:1] = [*round_, (width, curve.reach, 0.0)]
        else:
            round_ = [(0.0, curve.reach, hollow), (width - x, y, crown), (width - x, -y, hollow)]
            front[1:1] = [*round_, (0.0, -curve.reach, 0.0)]
    elif bridge.outline in ("stepped wings", "tapered wings") and out > SEEN:
        middle, deep = middle_half(bridge), width + out
        step = [(width, -middle, 0.0)] if bridge.outline == "stepped wings" else []
        back[1:1] = [*step, (deep, -middle, 0.0), (deep, middle, 0.0), *((x, -y, b) for x, y, b in step)]
    return (*front, *back)


def middle_half(bridge: Bridge) -> float:
    """Half the length of the middle between stepped or tapered wings, mm."""
    if bridge.wing_length is None:
        return BELLY_REACH * mm(bridge.length)
    return mm(bridge.length) / 2 - mm(bridge.wing_length)


def is_traced(bridge: Bridge) -> bool:
    """Whether the outline is one that was traced; while no points are known it is drawn straight."""
    return bridge.outline == "traced" and len(bridge.traced) > 2


@lru_cache(maxsize=64)
def _traced(bridge: Bridge) -> tuple[XY, ...]:
    """The traced points counter-clockwise, from the one nearest to the front left corner."""
    half = mm(bridge.length) / 2
    points = [(float(x), float(y)) for x, y in bridge.traced]
    if sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, (*points[1:], points[0]), strict=True)) < 0:
        points.reverse()
    first = min(range(len(points)), key=lambda at: math.dist(points[at], (0.0, half)))
    return (*points[first:], *points[:first])


@lru_cache(maxsize=64)
def corners(bridge: Bridge) -> tuple[XY, XY, XY, XY]:
    """Front left, front right, back right and back left of the wings; of a traced outline the points nearest to it."""
    half, width = mm(bridge.length) / 2, mm(bridge.width)
    found: tuple[XY, XY, XY, XY] = ((0.0, half), (0.0, -half), (width, -half), (width, half))
    if not is_traced(bridge):
        return found
    points = np.array(_traced(bridge))
    a, b, c, d = (points[np.hypot(*(points - corner).T).argmin()].tolist() for corner in found)
    return (a[0], a[1]), (b[0], b[1]), (c[0], c[1]), (d[0], d[1])


def back_at(bridge: Bridge, y: float) -> float:
    """How far back the bridge reaches at a place along it, mm behind its front edge; past its wings as at the tips."""
    width, curve = mm(bridge.width), belly(bridge)
    if is_traced(bridge):
        return float(_traced_at(bridge, np.array([y]))[1][0])
    if curve is not None:
        return width + curve.out_at(y) if bridge.outline == "belly" else width
    if bridge.outline not in ("stepped wings", "tapered wings"):
        return width
    middle, half = middle_half(bridge), mm(bridge.length) / 2
    if abs(y) <= middle:
        return width + depth(bridge)
    taper = max(half - abs(y), 0.0) / (half - middle) if bridge.outline == "tapered wings" else 0.0
    return width + depth(bridge) * taper


def front_at(bridge: Bridge, y: float) -> float:
    """Where the bridge begins at a place along it, mm behind its front edge; less than 0 on a reversed belly."""
    if is_traced(bridge):
        return float(_traced_at(bridge, np.array([y]))[0][0])
    curve = belly(bridge)
    return -curve.out_at(y) if curve is not None and bridge.outline == "reversed belly" else 0.0


def edges_at(bridge: Bridge, y: Array) -> tuple[Array, Array]:
    """Where the bridge begins and how far back it reaches at many places along it (k,)."""
    if is_traced(bridge):
        return _traced_at(bridge, y)
    front, back = ([edge(bridge, at) for at in y.tolist()] for edge in (front_at, back_at))
    return np.array(front), np.array(back)


def _traced_at(bridge: Bridge, y: Array) -> tuple[Array, Array]:
    """The same of a traced outline: the foremost and the hindmost of where it crosses; past its tips, as there."""
    points = np.array(_traced(bridge))
    (x0, y0), (x1, y1) = points.T, np.roll(points, -1, axis=0).T
    at = np.clip(y, y0.min(), y0.max())[:, None]
    on = (np.minimum(y0, y1) <= at) & (at <= np.maximum(y0, y1))
    level = y0 == y1
    x = np.where(level, x0, x0 + (x1 - x0) * (at - y0) / np.where(level, 1.0, y1 - y0))
    return np.where(on, x, np.inf).min(axis=1), np.where(on, x, -np.inf).max(axis=1)


def tips(bridge: Bridge) -> tuple[complex, complex]:
    """The middle of each wing's end [left, right], in the bridge's own frame."""
    half, middle = mm(bridge.length) / 2, mm(bridge.width) / 2
    if not is_traced(bridge):
        return complex(middle, half), complex(middle, -half)
    points = _traced(bridge)
    left, right = max(points, key=lambda at: at[1]), min(points, key=lambda at: at[1])
    return complex(*left), complex(*right)
