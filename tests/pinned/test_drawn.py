"""What every template draws of each sample job and of the full one, what its pages say, and what files for machines
hold with each sort of tool.
"""

import pytest

from export.machine.machine_file import MachineSettings
from tests.export.golden_drawings import RECORD
from tests.pinned import drawn, jobs, kept

NEAR = 1e-7
"""How far a sum may stand from the one that was kept, of its own size."""
FEW = {drawn.STOCK.name: (jobs.FULL,), "job-sheet": ("small-four", "turned-left", "bolted-left", jobs.FULL)}
"""What only some jobs ask for, and what is long."""
EACH = [
    (name, template)
    for name in (*jobs.NAMES, jobs.FULL)
    for template in drawn.ALL
    if template not in FEW or name in FEW[template]
]
MADE = [
    (name, machine)
    for name, template in drawn.ALL.items()
    for machine in drawn.MACHINES
    if template.draw is not None and (machine != "letters as lines" or name == "nut-slots")
]
"""Letters as lines are many; one template has all there is to see of them."""


@pytest.mark.parametrize(("name", "template"), EACH)
def test_what_is_drawn(name: str, template: str) -> None:
    found = drawn.template_of(drawn.ALL[template], jobs.job(name), jobs.layout(name))
    assert kept.differences_of(f"drawn/{template}", name, found, NEAR) == []


@pytest.mark.parametrize(("template", "machine"), MADE)
def test_files_for_machines(template: str, machine: str) -> None:
    """Of the full job, that has something for each template."""
    job, layout = jobs.job(jobs.FULL), jobs.layout(jobs.FULL)
    found = drawn.machine_file_of(drawn.ALL[template], job, layout, drawn.MACHINES[machine])
    assert kept.differences_of(f"machines/{template}", machine, found, NEAR) == []


@pytest.mark.skipif(RECORD, reason="recording")
def test_a_mark_that_moves_by_a_hundredth_is_seen() -> None:
    job, layout = jobs.job(jobs.FULL), jobs.layout(jobs.FULL)
    usual = drawn.machine_file_of(drawn.ALL["plate"], job, layout, MachineSettings())
    for moved, differ in ((0.0, 0), (0.01, 1)):
        name = next(name for name in usual if name.startswith("drill"))
        count, numbers, weighted = usual[name]
        changed = usual | {name: [count, numbers, weighted + moved]}
        assert len(kept.differences_of("machines/plate", "as usual", changed, NEAR)) == differ
