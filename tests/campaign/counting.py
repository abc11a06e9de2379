"""What many records come to: shares with their intervals, widths, and what was said how often."""

import math
from collections import Counter
from collections.abc import Iterable, Sequence

import msgspec
from scipy.stats import beta

from tests.campaign.judging import Figure, Record


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


class Found(msgspec.Struct, frozen=True, kw_only=True):
    """What a campaign found: of each figure one a job, for those of one job hang together; and of each statement how
    often it was right.
    """

    figures: dict[str, list[Figure]]
    said: dict[str, Share] = {}


def by_name(records: Iterable[dict[str, Figure]]) -> dict[str, list[Figure]]:
    """The figures of many jobs, brought together by their names."""
    found: dict[str, list[Figure]] = {}
    for record in records:
        for name, figure in record.items():
            found.setdefault(name, []).append(figure)
    return found


def share(found: Iterable[bool]) -> Share:
    """How many of these are true."""
    seen = list(found)
    return Share(sum(seen), len(seen))


def held(records: Sequence[Record], *names: str) -> Share:
    """How many of these figures' ± hold the truth, over all records that have them."""
    return share(figure.held for figure in _named(records, *names))


def _named(records: Sequence[Record], *names: str) -> list[Figure]:
    return [record.figures[name] for record in records for name in names if name in record.figures]


def points_held(records: Sequence[Record]) -> Share:
    """The share of points' coordinates whose ± holds. The coordinates of one job hang together, so it is counted as if
    each job had but one.
    """
    all_of = share(figure.held for record in records for figure in record.points.values())
    jobs = sum(bool(record.points) for record in records)
    return Share(round(all_of.value * jobs) if jobs else 0, jobs)


def median_pm(records: Sequence[Record], *names: str) -> float:
    """The middle one of these figures' stated ±, mm."""
    return middle_pm(_named(records, *names))


def middle_pm(figures: Sequence[Figure]) -> float:
    """The middle one of the stated ±; not a number where there is none."""
    found = sorted(figure.pm for figure in figures)
    return found[len(found) // 2] if found else math.nan


def under_95(records: Sequence[Record], *names: str) -> float:
    """What the errors of these figures stay under in 95 of 100, mm: what an honest ± comes to."""
    return stay_under(_named(records, *names))


def stay_under(figures: Sequence[Figure]) -> float:
    """What the errors stay under in 95 of 100."""
    found = sorted(abs(figure.off) for figure in figures)
    return found[min(math.ceil(0.95 * len(found)), len(found)) - 1] if found else math.nan


def false_difference(records: Sequence[Record]) -> float:
    """The root mean square of the nominal places' difference where in truth there is none, mm; NaN where there is."""
    found = [r.difference**2 for r in records if r.difference is not None and not r.apart]
    return math.sqrt(sum(found) / len(found)) if found else math.nan


def verdicts(records: Sequence[Record]) -> list[tuple[str, int]]:
    """What was said, and how often."""
    return Counter(record.verdict for record in records).most_common()
