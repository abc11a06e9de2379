"""That the board turns, where there is room for one sentence only: what it does is told where the line is chosen."""

from msgspec import structs

from geometry.findings import Finding
from geometry.job import Job


def in_brief(finding: Finding, job: Job) -> Finding:
    """The finding that the board turns with the first thing to do about it; any other as it is."""
    if finding.code != "board.turns":
        return finding
    from geometry.neck.straightness import degrees_said  # it brings numpy, which is there once a finding is

    turn, pm95 = finding.values["degrees"], finding.values["degrees_pm95"]
    toward = job.bass_or_treble("left" if turn > 0 else "right")
    does = f"The board turns at fret 12 by {degrees_said(turn, pm95)} toward {toward}."
    return structs.replace(finding, text=f"{does} Press here to choose the neck centre line.")
