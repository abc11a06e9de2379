"""What would be without the readings that are accused, against fits that really leave them out."""

from types import SimpleNamespace

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Job
from geometry.survey import survey
from geometry.survey.adjust.adjustment import describe
from geometry.survey.adjust.datum import Fixed
from geometry.survey.adjust.network import network_of
from geometry.survey.judge.suspects import Suspects
from geometry.survey.judge.without_accused import LITTLE, _let_in, alternatives
from geometry.survey.rows.row import Row
from geometry.work_out import work_out
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of


def trial(name: str, index: int) -> Job:
    return trial_of(next(case for case in CASES if case.name == name), 77, index).job


@pytest.mark.parametrize("index", range(12))
def test_a_reading_left_out_is_what_a_fit_without_it_says(index: int) -> None:
    job = trial("misread", index)
    whole = survey(job)
    for other in whole.alternatives:
        if other.aside or len(other.ids) > 1:
            continue
        struck = tuple(replace(r, struck=r.struck or r.id in other.ids) for r in job.readings)
        alone = survey(replace(job, readings=struck))
        if alone.report.verdict in ("loose", "either side"):
            continue  # without it a point is not fixed, and each fit has put it somewhere
        places = {name: whole.state[c : c + 2] + other.change[c : c + 2] for name, c in whole.point_at.items()}
        names = [name for name in places if name in alone.point_at]
        here, there = (
            np.array([complex(*at) for at in found])
            for found in (
                [places[name] for name in names],
                [alone.state[alone.point_at[name] : alone.point_at[name] + 2] for name in names],
            )
        )
        apart = [abs(abs(here[i] - here[j]) - abs(there[i] - there[j])) for i in range(len(names)) for j in range(i)]
        # over a few mm the fit hardly bends: what is straight in them agrees to a tenth of a mm
        assert max(apart) < 0.1


@pytest.mark.parametrize("wrong", [-100.0, 60.0, 100.0])
def test_a_length_that_is_far_out_leaves_no_place_rather_than_one_within_kilometres(wrong: float) -> None:
    job = trial("as given", 3)
    board = next(r for r in job.readings if r.kind == "distance" and set(r.of) == {"nut.right", "end.left"})
    slip = tuple(
        replace(r, value=f"{float(str(r.value).split()[0]) + wrong} mm") if r.id == board.id else r  # a decimal length
        for r in job.readings
    )
    layout = work_out(replace(job, readings=slip))
    assert layout.survey.verdict != "clean"
    if layout.saddle is not None:
        assert max(layout.saddle.pm95) <= 50
    else:
        assert any(f.grade == "stop" for f in layout.findings)


@pytest.mark.parametrize(("sigma", "share"), [(0.3, 0.25 / 0.34), (0.5, 0.5), (2.0, 0.25 / 4.25)])
def test_a_reading_set_aside_would_pull_as_much_as_it_weighs_among_all(sigma: float, share: float) -> None:
    # derived: a length read once with 0.5, and with `sigma` by the reading set aside: in their weighted mean the latter
    # has the share 0.5² / (0.5² + sigma²)
    aside = sigma * LITTLE
    variance = 1 / (0.5**-2 + aside**-2)
    weights = variance / np.array([0.5, aside]) ** 2
    done = SimpleNamespace(
        gain=weights[None], net=SimpleNamespace(sigma=np.array([0.5, aside])), redundancy=1 - weights
    )
    net = SimpleNamespace(sigma=np.array([0.5, sigma]), rows=(SimpleNamespace(id="r1"), SimpleNamespace(id="r2")))
    other = _let_in(done, net, 1)  # type: ignore[arg-type]  # what it looks at
    assert (other.ids, other.aside, other.more.shape) == (("r2",), True, (1, 0))
    assert other.change.tolist() == pytest.approx([share], rel=1e-6)


@pytest.mark.parametrize(
    ("named", "group", "swap", "aside", "sets"),
    [
        ((), (), (), (), []),
        ((0,), (), (), (), ["a"]),
        ((0, 1), (), (), (), ["a", "b", "ab"]),
        ((), (1, 2), (), (), ["b", "c"]),
        ((0,), (1, 2), (), (), ["a", "b", "c", "ab", "ac"]),
        ((), (), (1, 3), (), ["b", "d", "bd"]),
        ((0, 1), (), (), (1,), ["a", "b"]),
    ],
)
def test_what_is_accused_is_left_out_alone_and_together(
    named: tuple[int, ...], group: tuple[int, ...], swap: tuple[int, ...], aside: tuple[int, ...], sets: list[str]
) -> None:
    """All that are named, with each of a group that none can be named from; one set aside is let in instead."""
    rows = [Row(name, "none", (), 1.0, 1.0, extras=(("scale.left", 1.0),)) for name in "abcdefg"]
    net = network_of(rows)
    done = describe(net, np.array([1.0]), Fixed({}))
    found = alternatives(done, net, Suspects(named=named, group=group, swap=swap), aside)
    assert ["".join(one.ids) for one in found] == sets
    # derived: each reading agrees with the others, so that nothing changes without it
    assert all(one.change == pytest.approx([0.0 if not one.aside else one.change[0]]) for one in found)
