"""What is to be said of the radius of the board's face."""

import math
from collections.abc import Iterator

from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import Neck, SaddlePlan
from geometry.solids.board_bend import Bend, bends
from geometry.units import said


def findings(job: Job, neck: Neck, saddle: SaddlePlan, at_saddle: Bend | None) -> Iterator[Finding]:
    """A radius that no board of this width can have, and two that do not reach the saddle."""
    where = "field:board.arch" if job.board.arch else "field:board.radius"
    widths = [math.dist(*corners) for corners in (neck.nut, neck.end) if corners is not None]
    least = min((bend.radius for bend in bends(job)), default=math.inf)
    if least < max(widths) / 2:
        yield Finding(
            grade="stop",
            code="board.radius",
            text=f"The board’s radius is {said(least, job.unit)}, less than half of its width of "
            f"{said(max(widths), job.unit)}: no board is so round. Look at the unit and the decimal point.",
            values={"radius": least, "width": max(widths)},
            where=where,
        )
    elif at_saddle is None or at_saddle.radius < math.dist(*saddle.at_strings) / 2:
        yield Finding(
            grade="stop",
            code="board.radius",
            text="Carried on to the saddle the board’s two radii come to less than half the strings’ spread there: "
            "look at both, the first is that at the nut, the second that at the board’s end.",
            where=where,
        )
