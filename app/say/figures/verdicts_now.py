"""What may be done to the wood now. Strip, steps and card ask it of the layout that is shown: it is worked out once."""

from typing import TYPE_CHECKING

from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import Layout

if TYPE_CHECKING:
    from geometry.go_or_wait import Step


def verdicts_now(job: Job, layout: Layout) -> "tuple[Step, ...]":
    """The verdicts on a job's layout, one for each operation."""
    from geometry.go_or_wait.told_once import told_of  # it loads numpy, which the first picture does not wait for

    return told_of(job, layout).verdicts


def waiting_now(job: Job, layout: Layout | None) -> tuple[Finding, ...]:
    """What of that which templates are for is not to be done yet, in one finding; none where there is no saddle."""
    if layout is None or layout.saddle is None:
        return ()
    from geometry import go_or_wait  # as above

    return go_or_wait.waiting(verdicts_now(job, layout))
