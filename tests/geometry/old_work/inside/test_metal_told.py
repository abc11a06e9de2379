"""Metal in the wood: what it lies near is named."""

from types import SimpleNamespace
from typing import Any

import pytest

from geometry.job import Job
from geometry.layout import Gap, Metal
from geometry.old_work.inside.metal import findings
from tests.geometry.made import bridge


@pytest.mark.parametrize(("new", "called"), [("slot", "the slot"), ("pin:3", "a pin hole")])
@pytest.mark.parametrize(("room", "code"), [(4.9, "metal.in_the_way"), (5.1, "metal.near")])
def test_metal_names_what_it_lies_near(new: str, called: str, room: float, code: str) -> None:
    """derived: 5 mm are to be kept clear, and 5.1 known to 0.5 may be less"""
    metal = Metal(name="1", at=(650.0, 10.0), keep_out=5.0)
    gap = Gap(new=new, old="metal:1", mm=room, pm95=0.5, new_xy=(650.0, 0.0), old_xy=(650.0, 10.0))
    plan: Any = SimpleNamespace(metal=(metal,))
    seated: Any = SimpleNamespace(own=lambda at: at - 640.0)
    gaps: Any = SimpleNamespace(gaps=(gap,))
    (found,) = findings(Job(), plan, bridge(), seated, gaps)
    assert found.code == code
    assert f" from {called}; 5.0 mm is to be kept clear" in found.text
