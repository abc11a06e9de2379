"""**Go or wait**: what may be done to the wood now, and what must wait for which reading or trial."""

from geometry.go_or_wait.steps import Change, Step, Work
from geometry.go_or_wait.verdicts import verdicts
from geometry.go_or_wait.verdicts_as_findings import as_findings, in_a_word, waiting
from geometry.go_or_wait.verdicts_told import in_short, not_yet, said, strip_words, told
from geometry.go_or_wait.what_if import with_changes, worked_out

__all__ = [
    "Change",
    "Step",
    "Work",
    "as_findings",
    "in_a_word",
    "in_short",
    "not_yet",
    "said",
    "strip_words",
    "told",
    "verdicts",
    "waiting",
    "with_changes",
    "worked_out",
]
