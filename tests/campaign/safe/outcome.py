"""What a campaign comes to: how many were tried, which went wrong, and what else was counted on the way."""

import random
import signal
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import NamedTuple

KEPT = 20
"""How many faults are told in full."""
HANGS = 2
"""Seconds after which the person would think that nothing goes on."""


class Outcome(NamedTuple):
    """`faults`: what went wrong, each with the number of the try; `counted`: what came of the others."""

    tried: int
    faults: tuple[str, ...]
    counted: Counter[str]

    def says(self, name: str, seed: int) -> str:
        """The figure, with what it is made of before it."""
        lines = [f"  {fault}" for fault in self.faults[:KEPT]]
        counts = ", ".join(f"{count:,} {what}" for what, count in sorted(self.counted.items()))
        return "\n".join((*lines, f"{name}: {len(self.faults)} faults in {self.tried:,} tries (seed {seed}; {counts})"))


Try = Callable[[random.Random, Counter[str]], None]
"""One try: it counts what came of it, and raises where something is wrong."""


def repeat(one: Try, count: int, seed: int, longest: int = 60) -> Outcome:
    """Try so many times, each with chance of its own and none longer than `longest` s."""
    counted: Counter[str] = Counter()
    faults = []
    for number in range(count):
        try:
            with no_longer(longest):
                one(random.Random(f"{seed} {number}"), counted)
        except Exception as error:  # noqa: BLE001  # whatever it is, it is what we look for
            faults.append(f"try {number}: {type(error).__name__}: {str(error)[:300]}")
    return Outcome(count, tuple(faults), counted)


@contextmanager
def no_longer(seconds: int) -> Iterator[None]:
    """Raise `TimeoutError` where it takes longer, on systems that have an alarm."""
    if not hasattr(signal, "SIGALRM"):
        yield
        return

    def late(_signal: int, _frame: FrameType | None) -> None:
        raise TimeoutError(f"takes longer than {seconds} s")

    before = signal.signal(signal.SIGALRM, late)
    around = signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(around)  # what is left of a wait around this one begins again
        signal.signal(signal.SIGALRM, before)
