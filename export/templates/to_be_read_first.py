"""What must be read by whoever holds a sheet or a file: what forbids the work, what is doubtful, what to look at."""

from collections.abc import Collection

from export import cautions
from geometry import go_or_wait, words
from geometry.go_or_wait import Work
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job
from geometry.layout import Layout


def stops_of(layout: Layout) -> tuple[str, ...]:
    """What forbids the work to go on, in words."""
    return tuple(finding.text for finding in layout.findings if finding.grade == "stop")


def doubt_of(job: Job, layout: Layout) -> str:
    """What is said on paper and in files made while readings do not go together, or while something large is to be
    looked at; empty otherwise.
    """
    return " ".join(filter(None, (readings_in_doubt(job, layout), *looks_of(layout))))


def looks_of(layout: Layout) -> tuple[str, ...]:
    """What forbids nothing but must be read by whoever holds the sheet, in words."""
    return tuple(finding.text for finding in layout.findings if finding.large and finding.grade == "look")


def readings_in_doubt(job: Job, layout: Layout) -> str:
    """What is said of readings that do not go together; empty where all do."""
    survey = layout.survey
    names = survey.suspects or tuple(name for group in survey.groups for name in group)
    doubtful = [words.reading_called(job, r) for r in job.readings if r.id in names]
    if not doubtful:
        return ""
    some = doubtful if len(doubtful) < 4 else [*doubtful[:2], f"{len(doubtful) - 2} more"]
    one = len(doubtful) == 1
    who = f"reading {some[0]} does not" if one else f"readings {words.joined(some)} do not"
    if layout.saddle is not None and layout.saddle.waits_for:
        return f"Not settled: {who} agree with the others. Read {'it' if one else 'them'} again before you use this."
    return f"Look again before you use this: {who} agree with the others."


def warnings_of(job: Job, layout: Layout, template: str = "", does: Collection[Work] = ()) -> tuple[str, ...]:
    """What is written beside a file for a machine, of a template by name; of the steps that the machine `does` by it on
    the wood, those that must wait.
    """
    doubt = doubt_of(job, layout)
    stops = (f"STOP. {reason}" for reason in stops_of(layout))
    waits = [step for step in told_of(job, layout).verdicts if not step.go and step.what in does] if does else []
    return (
        *stops,
        *((doubt,) if doubt else ()),
        *go_or_wait.not_yet(job, waits),
        *cautions.of_file(layout, template, job.held),
    )
