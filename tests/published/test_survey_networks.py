"""`adjust` against networks of distances worked through in surveying books (data/survey_networks.json)."""

import numpy as np
import pytest

from geometry.survey import Adjusted, Fixed, Free, adjust
from geometry.survey.judge.suspects import snoop
from tests.published.survey_cases import NETWORKS, Case, network

every = pytest.mark.parametrize("case", NETWORKS.values(), ids=NETWORKS)


def adjusted(case: Case, without: str = "") -> Adjusted:
    datum = case["datum"]
    kept = {**case, "observations": [row for row in case["observations"] if row[0] != without]}
    held = Fixed(datum["points"]) if datum["type"] == "fixed" else Free(tuple(datum["points"]))
    return adjust(network(kept), held, case["points"])


@every
def test_places_as_an_independent_program_finds_them(case: Case) -> None:
    done = adjusted(case)
    for name, (x, y, sx, sy, sxy) in case["coordinates"].items():
        cov = done.spread(name)
        assert done.place(name) == pytest.approx((x, y), abs=2e-6)
        assert np.sqrt(np.diagonal(cov)) == pytest.approx((sx, sy), rel=1e-5)
        assert cov[0, 1] == pytest.approx(sxy, abs=1e-6 * sx * sy + 1e-10)


@pytest.mark.parametrize("key", ["N01", "N02", "N05"])
def test_places_and_a_posteriori_deviations_as_printed(key: str) -> None:
    case = NETWORKS[key]
    done = adjusted(case)
    scale = np.sqrt(done.squares / done.dof) * 100
    for name, (x, y, sx, sy) in case["printed"].items():
        assert done.place(name) == pytest.approx((x, y), abs=1e-4)
        assert np.sqrt(np.diagonal(done.spread(name))) * scale == pytest.approx((sx, sy), abs=1e-3)


@every
def test_the_readings_one_by_one(case: Case) -> None:
    done = adjusted(case)
    assert (done.dof, done.squares) == pytest.approx((case["dof"], case["vtpv"]), rel=1e-7)
    found = zip(done.net.rows, done.residual, done.redundancy, done.w, done.tau, strict=True)
    for row, residual, redundancy, w, tau in found:
        expected = case["rows"][row.id]
        assert residual == pytest.approx(expected[0], abs=1e-7)
        assert redundancy == pytest.approx(expected[1], abs=2e-6)
        assert (w, tau) == pytest.approx(expected[2:], abs=2e-5)


def test_one_reading_too_many_names_none() -> None:
    done = adjusted(NETWORKS["N01"])
    found = snoop(done)
    assert found.named == ()
    assert sorted(done.net.rows[i].id for i in found.group) == sorted(NETWORKS["N01"]["flagged"])


def test_a_reading_five_hundredths_out_is_found_by_tau() -> None:
    """Hoepke 1980, example 35.5: 1789.499 was printed for 1789.449; a posteriori, since its sigmas are too small."""
    case = NETWORKS["N07"]
    done = adjusted(case)
    worst = int(np.argmax(np.abs(done.tau)))
    assert done.net.rows[worst].id == case["flagged"][0] == "d24:1059-75"
    assert done.tau[worst] == pytest.approx(-3.291, abs=1e-3)
    assert -done.residual[worst] / done.redundancy[worst] == pytest.approx(0.0501, abs=1e-4)
    assert np.abs(adjusted(case, without="d24:1059-75").tau).max() == pytest.approx(2.449, abs=1e-3)


def test_a_clean_network_has_no_suspects() -> None:
    assert snoop(adjusted(NETWORKS["N05"])).named == ()
