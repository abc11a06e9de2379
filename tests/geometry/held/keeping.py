"""Sums as they are kept in a file, a line for each thing that they are of."""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from pathlib import Path

from tests.geometry.held.sums import Sums, alike

Kept = dict[str, float | None]
"""The sums of one thing; None: rounding decides something in that one, and only that it is there is held."""
OLDER = {"OPENBLAS_CORETYPE": "Nehalem", "NPY_DISABLE_CPU_FEATURES": "X86_V3 X86_V4"}
"""With these the libraries round as on an older processor."""


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


def different(found: Sums, wanted: Kept) -> dict[str, tuple[float | None, float | None]]:
    """What differs from what is kept: the sums as they are and as they were."""
    return {
        name: (found.get(name), wanted.get(name))
        for name in {**found, **wanted}
        if name not in wanted or (wanted[name] is not None and not _alike(found.get(name), wanted[name]))
    }


def _alike(one: float | None, other: float | None) -> bool:
    return one is not None and other is not None and alike(one, other)


def keep_anew(file: Path, sums_of: Callable[[str], Sums], names: Iterable[str], again: str) -> None:
    """Keep the sums of these as they are now, and tell which moved. The module `again` is run once more as on an older
    processor: there, what comes out otherwise is kept no longer.
    """
    if OLDER.items() <= os.environ.items():
        held_of = kept(file)
        for name, held in held_of.items():
            held |= dict.fromkeys(different(sums_of(name), held))
        write(file, held_of)
        return
    before = kept(file)
    write(file, {name: sums_of(name) for name in names})
    subprocess.run([sys.executable, "-m", again], env=os.environ | OLDER, check=True)
    kept.cache_clear()
    now = kept(file)
    moved = [name for name in {**before, **now} if before.get(name) != now.get(name)]
    sys.stdout.write("".join(f"{name}\n" for name in moved) + f"{len(now)} kept, {len(moved)} of them moved\n")
