"""What is marked slow: tests that try all samples, cards or kinds, and campaigns on invented instruments.

They take half of the time, and most of what they find is found sooner by the tests of the rooms it is in. Nothing is
left out where all must pass; `pytest -m "not slow"` is for the hand that works.
"""

from pathlib import Path

HERE = Path(__file__).parent
SLOW = (
    "campaign",
    "bench",
    "geometry/any_job",
    "geometry/choice",
    "geometry/floating/test_any_standing.py",
    "geometry/go_or_wait/test_promises.py",
    "geometry/held",
    "geometry/held_faulty",
    "geometry/neck/test_straightness.py",
    "geometry/placed/test_how_far.py",
    "geometry/proof/test_band_is_judged.py",
    "geometry/separate/test_any_bases.py",
    "export/held_drawn",
    "export/held_faulty",
    "export/paper/taped",
    "export/paper/test_lay_sheets.py",
    "export/paper/test_pdf.py",
    "export/paper/test_table_sheet.py",
    "export/templates/written/test_small_plan.py",
    "export/test_cautions.py",
    "export/test_golden.py",
    "app/file/test_samples.py",
    "app/say/test_words_and_readings.py",
    "app/test_go_or_wait_on_paper.py",
    "app/test_half_typed.py",
    "app/test_one_fineness.py",
    "app/test_own_words.py",
    "app/test_round_trip.py",
    "app/test_separate_words.py",
    "app/test_words_on_plans.py",
    "app/desk/cards/test_made_when_shown.py",
    "app/desk/cards/test_one_edge.py",
    "app/desk/cards/test_seldom_needed.py",
    "app/desk/cards/test_wheel_changes_nothing.py",
    "app/desk/document/test_recovery.py",
    "app/desk/for_every_hand",
    "app/desk/frame/test_go_or_wait_leads.py",
    "app/desk/frame/test_strip.py",
    "app/desk/test_left_handed_to_paper.py",
    "app/desk/test_tutorial.py",
    "app/desk/test_whole_job.py",
)
"""Rooms and modules beside this one."""


def is_slow(path: Path) -> bool:
    """Whether the tests of a module are."""
    within = path.relative_to(HERE).as_posix()
    return any(within == slow or within.startswith(f"{slow}/") for slow in SLOW)
