"""The campaign's short form: the ± of the saddle's heights and of the nut's bottoms, on invented instruments."""

import pytest

from tests.campaign.solids.invented_solids import Way
from tests.campaign.solids.trying_solids import FIGURES, WAYS, Tried, try_solids


@pytest.fixture(scope="module")
def tried() -> dict[tuple[Way, str], Tried]:
    return try_solids(250, 20261128)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("name", FIGURES)
def test_the_stated_interval_holds_the_truth(tried: dict[tuple[Way, str], Tried], way: Way, name: str) -> None:
    # 95 % by definition; 250 trials leave a standard deviation of 1.4 %, so three of them either way
    for share in (tried[way, name].outer, tried[way, name].inner):
        assert 0.908 <= share.value <= 0.992
    assert 0.05 < tried[way, name].width < 1.5
