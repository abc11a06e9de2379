"""What many records come to: shares with their intervals, widths, and what was said how often."""

import math
from collections import Counter
from collections.abc import Iterable, Sequence

import msgspec
from scipy.stats import beta

from tests.campaign.judging import Record


class Share(msgspec.Struct, frozen=True):
    """So many of so many."""

    count: int
    of: int

    @property
    def value(self) -> float:
        """The share, from 0 to 1; not a number where there is nothing to count."""
        return self.count / self.of if self.of else math.nan

    @property
    def interval(self) -> tuple[float, float]:
        """The 95 % interval of the share behind it (C. J. Clopper and E. S. Pearson, Biometrika 26, 404, 1934)."""
        k, n = self.count, self.of
        low = float(beta.ppf(0.025, k, n - k + 1)) if k else 0.0
        high = float(beta.ppf(0.975, k + 1, n - k)) if k < n else 1.0
        return low, high


def share(found: Iterable[bool]) -> Share:
    """How many of these are true."""
    seen = list(found)
    return Share(sum(seen), len(seen))


def held(records: Sequence[Record], *names: str) -> Share:
    """How many of these figures' ± hold the truth, over all records that have them."""
    return share(record.figures[name].held for record in records for name in names if name in record.figures)


def points_held(records: Sequence[Record]) -> Share:
    """The share of points' coordinates whose ± holds. The coordinates of one job hang together, so it is counted as if
    each job had but one.
    """
    all_of = share(figure.held for record in records for figure in record.points.values())
    jobs = sum(bool(record.points) for record in records)
    return Share(round(all_of.value * jobs) if jobs else 0, jobs)


def median_pm(records: Sequence[Record], *names: str) -> float:
    """The middle one of these figures' stated ±, mm."""
    found = sorted(record.figures[name].pm for record in records for name in names if name in record.figures)
    return found[len(found) // 2] if found else math.nan


def under_95(records: Sequence[Record], *names: str) -> float:
    """What the errors of these figures stay under in 95 of 100, mm: what an honest ± comes to."""
    found = sorted(abs(record.figures[name].off) for record in records for name in names if name in record.figures)
    return found[min(math.ceil(0.95 * len(found)), len(found)) - 1] if found else math.nan


def false_difference(records: Sequence[Record]) -> float:
    """The root mean square of the nominal places' difference where in truth there is none, mm; NaN where there is."""
    found = [r.difference**2 for r in records if r.difference is not None and not r.apart]
    return math.sqrt(sum(found) / len(found)) if found else math.nan


def verdicts(records: Sequence[Record]) -> list[tuple[str, int]]:
    """What was said, and how often."""
    return Counter(record.verdict for record in records).most_common()
