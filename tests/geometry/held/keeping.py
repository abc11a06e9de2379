"""Sums as they are kept in a file, a line for each thing that they are of."""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from pathlib import Path

from tests.geometry.held.sums import NEAR, STEADY, Sums, alike

Kept = dict[str, float | None]
"""The sums of one thing; None: rounding decides something in that one, and only that it is there is held."""
OTHERS = (
    {"OPENBLAS_CORETYPE": "Nehalem", "NPY_DISABLE_CPU_FEATURES": "X86_V3 X86_V4"},
    {"OPENBLAS_CORETYPE": "Sandybridge"},
    {"OPENBLAS_CORETYPE": "Haswell", "OPENBLAS_NUM_THREADS": "1"},
)
"""With these the libraries round as on other processors: older ones, and one of fewer cores."""


@lru_cache
def kept(file: Path) -> dict[str, Kept]:
    """What is kept, by the name of what it is of."""
    lines = file.read_text(encoding="utf-8").splitlines() if file.exists() else []
    return {name: json.loads(held) for name, _, held in (line.partition(" | ") for line in lines)}


def write(file: Path, held_of: Mapping[str, Mapping[str, float | None]]) -> None:
    """Keep these instead, but for what has no sums."""
    lines = (f"{name} | {json.dumps(held, separators=(',', ':'))}\n" for name, held in held_of.items() if held)
    file.write_text("".join(lines), encoding="utf-8")
    kept.cache_clear()


def different(found: Sums, wanted: Kept, near: float = NEAR) -> dict[str, tuple[float | None, float | None]]:
    """What differs from what is kept by more than is `near`: the sums as they are and as they were."""
    return {
        name: (found.get(name), wanted.get(name))
        for name in {**found, **wanted}
        if name not in wanted or (wanted[name] is not None and not _alike(found.get(name), wanted[name], near))
    }


def _alike(one: float | None, other: float | None, near: float) -> bool:
    return one is not None and other is not None and alike(one, other, near)


def keep_anew(file: Path, sums_of: Callable[[str], Sums], names: Iterable[str], again: str) -> None:
    """Keep the sums of these as they are now, and tell which moved. The module `again` is run once more as on each of
    the other processors: what comes out otherwise there is kept no longer.
    """
    if any(other.items() <= os.environ.items() for other in OTHERS):
        held_of = kept(file)
        for name, held in held_of.items():
            held |= dict.fromkeys(different(sums_of(name), held, STEADY))
        write(file, held_of)
        return
    before = kept(file)
    write(file, {name: sums_of(name) for name in names})
    for other in OTHERS:
        subprocess.run([sys.executable, "-m", again], env=os.environ | other, check=True)
    kept.cache_clear()
    now = kept(file)
    moved = [name for name in {**before, **now} if before.get(name) != now.get(name)]
    sys.stdout.write("".join(f"{name}\n" for name in moved) + f"{len(now)} kept, {len(moved)} of them moved\n")
