"""The usual sets."""

import numpy as np
import pytest

from geometry.job import Strings
from geometry.pitch import frequency
from geometry.strings.tension import tension_findings, tensions
from geometry.strings.usual_sets import SETS

SCALES = {"ukulele": 350.0, "baritone ukulele": 500.0, "tenor": 580.0, "mandolin": 350.0}


@pytest.mark.parametrize("name", list(SETS))
def test_no_string_of_a_usual_set_breaks_or_hangs_slack(name: str) -> None:
    one = SETS[name]
    lengths = np.full(one.count, SCALES.get(name, 648.0))
    codes = {finding.code for finding in tension_findings(Strings(list=one.strings), lengths)}
    assert codes <= {"strings.total", "strings.near_break"}


@pytest.mark.parametrize("name", list(SETS))
def test_a_usual_set_makes_a_job(name: str) -> None:
    strings = Strings(list=SETS[name].strings)
    assert len({string.name for string in strings.list}) == SETS[name].count


@pytest.mark.parametrize("name", [name for name in SETS if name not in ("ukulele", "steel twelve light")])
def test_the_list_runs_from_treble_to_bass(name: str) -> None:
    hertz = [frequency(string.pitch or "", 440) for string in SETS[name].strings]
    assert hertz == sorted(hertz, reverse=True)


def test_octave_pairs_share_a_course() -> None:
    strings = SETS["steel twelve light"].strings
    assert [s.course for s in strings] == [1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6]
    hertz = [frequency(s.pitch or "", 440) for s in strings]
    assert [hertz[i + 1] / hertz[i] for i in range(0, 12, 2)] == pytest.approx([1, 1, 2, 2, 2, 2])


@pytest.mark.parametrize(("name", "low", "high"), [("nylon normal", 340, 400), ("ukulele", 60, 130)])
def test_soft_sets_pull_what_such_sets_pull(name: str, low: float, high: float) -> None:
    # nylon normal: Anderson & Beausoleil 2024 print 374.9 N for six; ukulele: common practice, from memory
    one = SETS[name]
    total = float(tensions(one.strings, 440, np.full(one.count, SCALES.get(name, 650.0))).sum())
    assert low < total < high
