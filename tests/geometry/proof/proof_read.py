"""A job whose proof is read without any error, from a bridge that is where it belongs or is not."""

import math
from cmath import rect

from msgspec.structs import replace

from geometry.job import Job, Proof
from geometry.placed.place_everything import place_everything
from geometry.proof import prove
from geometry.proof.proof_places import find_places
from geometry.survey import survey


def read(
    job: Job,
    off: complex = 0.0,
    turn: float = 0.0,
    scale: float | tuple[float, float] = 1.0,
    *,
    over: bool = False,
    misread: tuple[int, float] = (0, 0.0),
    stage: str = "clamped",
) -> Job:
    """The job with its distances read without error from a bridge that is `off` (mm along + i left), turned (degrees)
    about its slot's middle, its sheet at a scale (or at one along and one across) or turned `over`.
    """
    surveyed = survey(job)
    places = find_places(job, place_everything(job, surveyed))
    found = prove(job, stage, surveyed)  # type: ignore[arg-type]  # one of the two
    assert places is not None
    assert found is not None
    way, start = complex(places.sheet.way[0]), complex(places.sheet.at[0])
    along, across = scale if isinstance(scale, tuple) else (scale, scale)

    def stands(name: str) -> complex:
        if name not in places.new:
            return complex(places.board[name][0])
        at = places.swapped[name] if over else places.new[name]
        own = (at - start) / way
        at = start + way * complex(along * own.real, across * own.imag)
        return places.pivot + (at - places.pivot) * rect(1, math.radians(turn)) + off * way

    taken = []
    for i, row in enumerate(found.rows):
        a, b = row.reading.of
        true = row.wanted * abs(stands(b) - stands(a)) / abs(places.row(b)[0] - places.row(a)[0])
        taken.append(replace(row.reading, value=true + (misread[1] if i == misread[0] else 0.0)))
    return replace(job, proof=(Proof(stage=stage, when="2026-11-28", readings=tuple(taken)),))  # type: ignore[arg-type]
