"""The saddle's distance from the nut, as a finished layout tells it."""

from geometry.layout import XY, Layout


def from_nut(layout: Layout) -> XY | None:
    """From the nut's front to the saddle line along the neck, at the left and right outer strings, mm: what the
    saddle's ± is of. None where neck or saddle are missing.
    """
    if layout.neck is None or layout.saddle is None or not layout.strings:
        return None
    outer = [max(layout.strings, key=lambda one: one.nut_xy[1]), min(layout.strings, key=lambda one: one.nut_xy[1])]
    left, right = (_on(layout.neck.nut, string.nut_xy[1]) for string in outer)
    (left_x, _), (right_x, _) = layout.saddle.at_strings
    return left_x - left, right_x - right


def _on(line: tuple[XY, XY], y: float) -> float:
    (ax, ay), (bx, by) = line
    return ax + (y - ay) * (bx - ax) / (by - ay)
