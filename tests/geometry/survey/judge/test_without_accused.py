"""What would be without the readings that are accused, against fits that really leave them out."""

from types import SimpleNamespace

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Job
from geometry.survey import survey
from geometry.survey.judge.without_accused import LITTLE, _let_in
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
