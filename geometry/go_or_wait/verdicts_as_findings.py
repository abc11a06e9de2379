"""Go or wait as findings, each with the place where it would be changed."""

import msgspec

from geometry import words
from geometry.findings import Finding
from geometry.go_or_wait.steps import Step, Work
from geometry.go_or_wait.verdicts_told import told
from geometry.job import Job
from geometry.layout import Layout

IN_FULL: dict[Work, str] = {
    "clear": "the finish",
    "glue": "the glue",
    "pins": "the pin holes",
    "slot": "the slot",
    "fit": "the saddle",
    "stand": "the bridge",
    "crown": "the crown",
    "screws": "the base’s screw holes",
    "through": "the holes through the body",
}
UNTOLD: dict[Work, str] = {"screws": "field:separate.screws", "through": "field:separate.body"}
"""Where what is still to be told of an operation is typed."""
WAITS = "go.waits"
"""The code of what waits for nothing that is wrong."""


def in_a_word(step: Step) -> str:
    """Whether to do it now, to wait until more is known, to look first at what is wrong, or to stop before it spoils
    the work.
    """
    if step.go:
        return "go"
    if step.unsure or step.what == "clear":  # which waits for the glue, whatever holds that back
        return "wait"
    return "stop" if step.why == "stop" else "look"


def waiting(steps: tuple[Step, ...]) -> tuple[Finding, ...]:
    """What waits, for a place that has its templates but not the reasons; nothing where all may be done."""
    names = [IN_FULL[step.what] for step in steps if not step.go]
    if not names:
        return ()
    text = f"Wait with {words.joined(names)}: the Bridge card says what for."
    code = WAITS if all(step.go or step.unsure for step in steps) else "go.not"
    return (Finding(grade="look", code=code, text=text, where="step:bridge"),)


def as_findings(job: Job, layout: Layout, steps: tuple[Step, ...]) -> list[Finding]:
    """The same as findings, each with the place where it would be changed."""
    return [
        Finding(
            grade="good" if step.go else "stop" if step.why == "stop" else "look",
            code=WAITS if step.unsure else f"go.{step.what}",
            text=told(job, step, steps),
            values={"pm95": step.pm95, "limit": step.limit},
            where=_where(layout, step),
        )
        for step in steps
    ]


WHERE = {"action": "field:strings.action", "trial": "field:strings.heard", "nothing": "field:saddle.thickness"}
"""Where what would change it is typed, but for readings."""


def _where(layout: Layout, step: Step) -> str:
    if step.change is not None and step.change.again:
        return f"reading:{step.change.again[0]}"
    if step.why == "proof":
        return "field:proof"
    if step.why == "stop":
        return next((finding.where for finding in layout.findings if finding.text == step.stop), "saddle")
    if step.why == "untold":
        return UNTOLD[step.what]
    if step.change is None:
        return "saddle"
    if step.change.reading is not None:
        return f"take:{msgspec.json.encode(step.change.reading).decode()}"
    return WHERE[step.change.what]
