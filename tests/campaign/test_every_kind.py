"""The table of all kinds: its rows, what is beside the aim, and that the page keeps what it does not write."""

from pathlib import Path

import pytest

from tests.campaign.__main__ import main
from tests.campaign.counting import Found, Share
from tests.campaign.every_kind import (
    COARSER,
    KINDS,
    START,
    coarse_rows,
    coarsely_told,
    figure_rows,
    kept,
    outside,
    rewrite,
    section,
    told,
    try_kinds,
)
from tests.campaign.invented.hands import AS_STATED
from tests.campaign.judging import Figure

NARROW = Found(
    figures={
        "a place": [Figure(0.4 if index < 85 else -1.2, 1.0) for index in range(100)],
        "another": [Figure(0.4 if index < 95 else -1.2, 1.0) for index in range(100)],
    },
    said={"something": Share(9, 10)},
)


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_finds_figures(kind: str) -> None:
    found = KINDS[kind].found(3, 2035)
    assert found.figures
    assert all(figures for figures in found.figures.values())


def test_the_same_seed_finds_the_same() -> None:
    assert told(try_kinds(("short strings",), 2, 2036)) == told(try_kinds(("short strings",), 2, 2036))


def test_a_row_tells_share_width_and_errors() -> None:
    # derived: 85 of 100 by Clopper and Pearson, 76.5 to 91.4; 95 of 100 errors stay under 1.2, and of the other 0.4
    _, one, other = figure_rows({"old work": NARROW})
    assert one == ["old work", "a place", "85 of 100", "85.0 (76.5–91.4)", "1.00", "1.20"]
    assert other[2:] == ["95 of 100", "95.0 (88.7–98.4)", "1.00", "0.40"]


def test_a_coarser_hand_takes_the_readings_of_kinds_that_are_read_by_it() -> None:
    names = ("short strings", "slanted frets")
    as_stated, coarser = (try_kinds(names, 3, 2037, manner=manner) for manner in (AS_STATED, COARSER))
    assert set(as_stated) == set(names)
    assert set(coarser) == {"short strings"}
    assert coarser["short strings"].figures != as_stated["short strings"].figures


def test_a_kinds_row_of_a_coarser_hand_tells_all_its_figures_and_the_least() -> None:
    # derived: 85 and 95 of 100 are 180 of 200; nine of ten statements are right
    _, row = coarse_rows({"old work": NARROW})
    assert row == ["old work", "2", "180 of 200", "90.0", "a place", "85.0 (76.5–91.4)", "90.0"]
    assert "2 times the stated ones" in coarsely_told({"old work": NARROW}, COARSER)


def test_what_is_beside_the_aim_by_more_than_chance_is_named() -> None:
    assert outside({"old work": NARROW}) == ["old work: a place"]
    assert "- old work: a place\n" in section({"old work": NARROW}, 100, 1)


def test_the_page_keeps_what_it_does_not_write(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    assert kept(page) == ""
    page.write_text("# Before\n\nOld.\n", encoding="utf-8")
    for seed in (1, 2):
        rewrite(page, section({"old work": NARROW}, 100, seed))
    text = page.read_text(encoding="utf-8")
    assert text.startswith("# Before\n\nOld.\n\n" + START)
    assert text.count(START) == 1
    assert "seed 2" in text
    assert text == "# Before\n\nOld.\n" + kept(page)


def test_one_kind_alone_is_not_written_over_all(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "page.md"
    page.write_text("as it was", encoding="utf-8")
    with pytest.raises(SystemExit):
        main(["kinds", "--kind", "proof", "--count", "1", "--write", str(page)])
    assert "--write tells of all kinds: leave out --kind" in capsys.readouterr().err
    assert page.read_text(encoding="utf-8") == "as it was"
