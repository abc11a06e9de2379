"""A **row**: one equation of the survey, in a form that does not care which hand took the reading it comes from.

A row reads: geometry of up to four points + its extra unknowns, each times its coefficient = value ± sigma.
"""

import msgspec

from geometry.job.measured.kinds import Form

BELIEVABLE = 3.2905267314919255
"""The normal distribution's two-sided 0.1 % point: a residual of so many standard deviations is not believed."""
STILL = 1e-3
"""The sigma (mm) of what is taken as given: far finer than any reading, and far coarser than rounding."""


class Row(msgspec.Struct, frozen=True, cache_hash=True):
    """One equation. `points` of a `laid` row are P, Q, A, B: (P − Q) along `lean` × the direction A→B, `lean` 1 along,
    1j to the left, −1j to the right; of an `at` row P alone, `lean` 1 for x and 1j for y. `id` is "" for what is known
    beforehand. `carried`: the standard deviation (mm) of a value that the fit takes as given, carried into its ±.
    """

    id: str
    form: Form
    points: tuple[str, ...]
    value: float
    sigma: float
    lean: complex = 1
    extras: tuple[tuple[str, float], ...] = ()
    component: str = ""
    carried: float = 0.0

    @property
    def laying(self) -> str:
        """The laying of the rule whose zero this row says beforehand; '' for any other row."""
        known = self.extras[0][0] if self.extras and not self.id else ""
        return known.removeprefix("zero.") if known.startswith("zero.") else ""
