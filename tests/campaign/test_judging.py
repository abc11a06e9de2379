"""The campaign's judge can tell right from wrong, and its tables say what was counted."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from geometry.work_out import work_out
from tests.campaign.__main__ import main
from tests.campaign.counting import Share, held, share, under_95
from tests.campaign.invented.cases import CASES, cases_named
from tests.campaign.invented.instruments import Truth
from tests.campaign.invented.mirroring import mirrored
from tests.campaign.invented.trials import Trial, trial_of
from tests.campaign.judging import Figure, Record, judge, mirror_gap
from tests.campaign.page import text
from tests.campaign.running import campaign
from tests.campaign.table import figure_line, rows


def trial(index: int = 1) -> Trial:
    return trial_of(CASES[0], 7, index)


def elsewhere(true: Truth) -> Truth:
    """A truth that lies ten millimetres from the one there is."""
    return replace(
        true,
        saddle=(true.saddle[0] + 10, true.saddle[1] + 10),
        slant=true.slant + 10,
        points={name: point + 10 for name, point in true.points.items()},
    )


def test_a_figure_that_is_off_is_seen() -> None:
    right, wrong = judge(trial()), judge(replace(trial(), truth=elsewhere(trial().truth)))
    assert right.wrong_figures == ()
    assert right.figures["saddle.bass"].held
    assert not any(wrong.figures[name].held for name in ("saddle.bass", "saddle.treble", "slant"))
    assert {"saddle.bass", "saddle.treble", "end.left x"} <= set(wrong.wrong_figures)
    assert wrong.silent
    assert not right.silent


def test_a_saddle_that_is_off_is_not_silent_where_the_screen_warns() -> None:
    slipping = next(case for case in CASES if case.name == "misread fret")
    told = next(one for one in (trial_of(slipping, 7, index) for index in range(1, 30)) if judge(one).named)
    assert not judge(replace(told, truth=elsewhere(told.truth))).silent


def record(**changes: object) -> Record:
    return replace(judge(trial()), **changes)


def test_a_wrong_figure_counts_only_while_no_wrong_reading_is_accused() -> None:
    far = {"saddle.bass": Figure(9.0, 0.8)}
    assert record(figures=far, points={}).wrong_figures == ("saddle.bass",)
    assert record(figures=far, points={}, wrong=("r1",), accused=("r2",)).wrong_figures == ("saddle.bass",)
    assert record(figures=far, points={}, wrong=("r1",), accused=("r1",)).wrong_figures == ()
    assert record(figures={"saddle.bass": Figure(9.0, 4.0)}, points={}).wrong_figures == ()


def test_who_is_accused() -> None:
    slipping = next(case for case in CASES if case.name == "misread fret")
    seen = [judge(trial_of(slipping, 7, index)) for index in range(1, 12)]
    told = [one for one in seen if one.accused]
    assert told
    for one in told:
        assert one.named == (one.wrong[0] in one.accused and not one.grouped) or one.grouped
        assert one.innocent == bool(set(one.accused) - set(one.wrong)) or one.grouped
    blamed = judge(replace(trial_of(slipping, 7, told[0].index), wrong=("r1",)))
    assert blamed.innocent
    assert not blamed.named


def test_the_mirror_shows_what_it_should() -> None:
    job = trial().job
    assert mirror_gap(work_out(job), work_out(mirrored(job))) < 1e-6
    assert mirror_gap(work_out(job), work_out(mirrored(trial(4).job))) > 0.1


def test_shares_and_their_intervals() -> None:
    # derived: none of ten leaves up to 1 − 0.025^(1/10) (C. J. Clopper and E. S. Pearson, Biometrika 26, 404, 1934)
    assert Share(0, 10).interval == pytest.approx((0.0, 1 - 0.025**0.1))
    assert Share(10, 10).interval == pytest.approx((0.025**0.1, 1.0))
    assert share([True, False, True, True]) == Share(3, 4)
    two = [record(figures={"slant": Figure(off, 1.0)}) for off in (0.5, 1.5)]
    assert held(two, "slant") == Share(1, 2)
    assert under_95(two, "slant") == 1.5


def test_the_table_and_the_line_say_what_was_counted() -> None:
    judged = {"as given": [judge(trial(1)), judge(trial(2))]}
    head, line = rows("said", judged)
    said = dict(zip(head, line, strict=True))
    assert said["wrong"] == "0"
    assert said["named %"] == "–"
    assert figure_line(judged).startswith("FIGURE: the saddle’s ± holds in ")


def test_one_process_or_two_give_the_same() -> None:
    cases = cases_named(["as given"])
    assert campaign(cases, 7, 3) == campaign(cases, 7, 3, jobs=2)


def test_an_unknown_case_is_refused() -> None:
    with pytest.raises(SystemExit, match="no case tomorrow; there are: as given"):
        cases_named(["tomorrow"])


def test_the_command_writes_the_page_and_its_pictures(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "how-true.md"
    assert main(["true", "--count", "3", "--case", "as given", "--case", "misread", "--write", str(page)]) == 0
    assert capsys.readouterr().out.splitlines()[-1].startswith("FIGURE: ")
    written = page.read_text(encoding="utf-8")
    assert "| misread | One reading, any but a height, is out by 1 to 5 mm. |" in written
    assert written == text(campaign(cases_named(["as given", "misread"]), 7, 3), 7, zero=True)
    assert {path.name for path in (tmp_path / "how-true").iterdir()} == {"held.svg", "width.svg"}


def test_one_trial_is_made_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kept = tmp_path / "one.job.json"
    assert main(["one", "--case", "as given", "--index", "2", "--to", str(kept)]) == 0
    assert "saddle.bass" in capsys.readouterr().out
    assert kept.is_file()
