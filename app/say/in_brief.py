"""Findings where there is room for one sentence only: what else there is to say is told where pressing them leads."""

from msgspec import structs

from geometry.findings import Finding
from geometry.job import Job


def in_brief(finding: Finding, job: Job, *, cut: bool = False) -> Finding:
    """The finding that the board turns with the first thing to do about it; where even less room is (`cut`), of what
    nobody has looked at what that is, and not what to do; any other as it is.
    """
    if cut and finding.briefly:
        return structs.replace(finding, text=finding.briefly)
    return _turns(finding, job) if finding.code == "board.turns" else finding


def _turns(finding: Finding, job: Job) -> Finding:
    from geometry.neck.straightness import degrees_said  # it brings numpy, which is there once a finding is

    turn, pm95 = finding.values["degrees"], finding.values["degrees_pm95"]
    toward = job.bass_or_treble("left" if turn > 0 else "right")
    does = f"The board turns at fret 12 by {degrees_said(turn, pm95)} toward {toward}."
    return structs.replace(finding, text=f"{does} Press here to choose the neck centre line.")
