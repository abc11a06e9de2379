"""A pull is told in newtons, and in pounds-force in a job in inches."""

from geometry.forces import force
from geometry.units import Unit
from tests.in_one import in_one


@in_one(
    ("unit", "pm95", "places", "said"),
    [
        ("mm", None, None, "104 N"),
        ("cm", None, None, "104 N"),
        ("in", None, None, "23.4 lb"),
        ("in", None, 0, "23 lb"),
        ("mm", None, 1, "104.2 N"),
        ("in", None, 1, "23.4 lb"),
        ("mm", 1.81, 0, "104.2 ±1.9 N"),
        ("in", 1.81, 0, "23.4 ±0.5 lb"),
        ("mm", 1.8, 0, "104.2 ±1.8 N"),
    ],
)
def test_a_pull(unit: Unit, pm95: float | None, places: int | None, said: str) -> None:
    """derived: 104.2 N are 104.2 / 4.4482216 = 23.42 lbf, 1.81 N 0.407; what is behind a ± is rounded up. The pound is
    0.45359237 kg (international yard and pound agreement, 1959), standard gravity 9.80665 m/s² (ISO 80000-3:2019).
    """
    assert force(104.2, unit, pm95, places) == said
    assert force(0.45359237 * 9.80665, "in") == "1.0 lb"
