"""The saddle's distance from the nut, as a finished layout tells it."""

from geometry.layout import XY, Layout, StringPlan


def from_nut(layout: Layout) -> XY | None:
    """From the nut's front to the saddle line along the neck, at the left and right outer strings, mm: what the
    saddle's ± is of. None where neck or saddle are missing.
    """
    if layout.neck is None or layout.saddle is None or not layout.strings:
        return None
    at_nut = [_at_nut(string) for string in layout.strings]
    left, right = (_on(layout.neck.nut, y) for y in (max(at_nut), min(at_nut)))
    (left_x, _), (right_x, _) = layout.saddle.at_strings
    return left_x - left, right_x - right


def _at_nut(string: StringPlan) -> float:
    """A string's y at the nut; that of its line carried back to where x is 0, where it starts at a fret."""
    (ax, ay), (bx, by) = string.nut_xy, string.break_point
    return ay - ax * (by - ay) / (bx - ax) if string.starts_at else ay


def _on(line: tuple[XY, XY], y: float) -> float:
    (ax, ay), (bx, by) = line
    return ax + (y - ay) * (bx - ax) / (by - ay)
