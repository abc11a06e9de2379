"""What the job sheet says of templates that its steps need and that were not printed with it."""

from export.templates import TEMPLATES
from export.templates.written import not_printed, work_steps
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


def test_titles_are_those_of_the_templates() -> None:
    for titles in (*not_printed.TAPED.values(), *not_printed.NEEDED.values()):
        assert titles == {name: TEMPLATES[name].title for name in titles}


def test_each_template_that_a_step_needs_is_told_where_it_was_not_printed() -> None:
    """Derived from the steps: a glued bridge with dowels and a tie block, one that stands, one of separate saddles."""
    expected = {
        ("turned-left", ("placement", "clearing", "bridge")): "",
        ("turned-left", ("full-length", "clearing")): "“Bridge”",
        ("turned-left", ("bridge",)): "“Placement template” and “Finish clearing”",
        ("five-pairs", ("placement", "clearing", "bridge")): "“Tie block”",
        ("floating-five", ("placement",)): "“Tailpiece” and “Bridge’s place”",
        ("floating-five", ("tailpiece", "bridge-place")): "",
        ("slanted-separate", ()): "“Saddle bases”",
        ("slanted-separate", ("saddle-bases",)): "",
    }
    for (name, printed), lacking in expected.items():
        job = sample(name)
        first = work_steps.steps(job, work_out(job), printed)[0]
        asked = f" Needed below, but not printed with this sheet: {lacking}." if lacking else ""
        assert first == f"Lay a rule on both scales of every template that was printed.{asked}", (name, printed)
