"""Large networks: most unknowns share no reading, so their normal matrix is nearly empty and is solved as such.

The **pattern** of a network says which entries of its normal matrix are not nought; it is the same for all places, and
is found once. Its unknowns are in an order in which elimination fills little: by least degree, and those that are tied
to many others last (A. George and J. W. H. Liu, The evolution of the minimum degree ordering algorithm, SIAM Review
31(1), 1, 1989; from memory). From `SPARSE` unknowns on this pays (measured); scipy is loaded then and not before.
"""

import msgspec
import numpy as np
from numpy.typing import NDArray

from geometry.median import distinct
from geometry.survey.result import Array

Index = NDArray[np.intp]
SPARSE = 400
TIED = 80
"""An unknown tied to so many others is eliminated last."""


class Pattern(msgspec.Struct, frozen=True, eq=False):
    """Of a matrix (p, p): where the entry of each two of a row's slopes is kept (m K K, those of no two unknowns behind
    the last), row and column of each entry, where each column begins, and where the diagonal is; all in an order of
    elimination, `place` that of each unknown in it.
    """

    where: Index
    rows: Index
    columns: Index
    begins: Index
    diagonal: Index
    place: Index


class Sparse(msgspec.Struct, frozen=True, eq=False):
    """A symmetric matrix by its pattern and entries."""

    pattern: Pattern
    entries: Array

    def held(self, fixed: Index) -> "Sparse":
        """The same with these unknowns kept where they are: nought in their rows and columns, 1 on the diagonal."""
        pattern, entries = self.pattern, self.entries.copy()
        at = np.zeros(len(pattern.place), dtype=bool)
        at[pattern.place[fixed]] = True
        entries[at[pattern.rows] | at[pattern.columns]] = 0
        entries[pattern.diagonal[pattern.place[fixed]]] = 1
        return Sparse(pattern, entries)

    def damped(self, damping: float) -> "Sparse":
        """The same with a larger diagonal, and none of it nought."""
        entries = self.entries.copy()
        size = entries[self.pattern.diagonal] * (1 + damping)
        entries[self.pattern.diagonal] = np.where(size > 0, size, 1.0)
        return Sparse(self.pattern, entries)

    def solve(self, right: Array) -> Array:
        """Solve for x (p,). Raises RuntimeError where the matrix is singular."""
        from scipy.sparse import csc_array
        from scipy.sparse.linalg import splu

        pattern, p = self.pattern, len(right)
        matrix = csc_array((self.entries, pattern.rows, pattern.begins), shape=(p, p))
        ordered = np.empty(p)
        ordered[pattern.place] = right
        factor = splu(
            matrix, permc_spec="NATURAL", diag_pivot_thresh=0.0, panel_size=1, relax=1, options={"SymmetricMode": True}
        )
        return np.asarray(factor.solve(ordered)[pattern.place])


def pattern_of(columns: Index, used: NDArray[np.bool_], p: int) -> Pattern:
    """The pattern of p unknowns whose m rows have slopes in these `columns` (m, K), where they are `used` (m, K)."""
    pairs = columns[:, :, None] * p + columns[:, None, :]
    both = used[:, :, None] & used[:, None, :]
    keys = distinct(np.concatenate((pairs[both], np.arange(p) * (p + 1))))
    place = _order(keys // p, keys % p, p)
    moved = place[keys % p] * p + place[keys // p]
    sort = np.argsort(moved)
    at = np.empty(len(keys), dtype=np.intp)
    at[sort] = np.arange(len(keys))
    where = np.full(both.size, len(keys), dtype=np.intp)
    where[both.ravel()] = at[np.searchsorted(keys, pairs[both])]
    ordered = moved[sort]
    return Pattern(
        where=where,
        rows=ordered % p,
        columns=ordered // p,
        begins=np.searchsorted(ordered, np.arange(p + 1) * p),
        diagonal=np.searchsorted(ordered, np.arange(p) * (p + 1)),
        place=place,
    )


def _order(rows: Index, columns: Index, p: int) -> Index:
    """The place of each unknown (p,) in the order of elimination, from the entries that are not nought."""
    from scipy.sparse import csc_array
    from scipy.sparse.linalg import splu

    few = np.bincount(rows, minlength=p) <= TIED
    names = np.flatnonzero(few)
    number = np.cumsum(few) - 1
    inside = few[rows] & few[columns]
    at, to = number[rows[inside]], number[columns[inside]]
    # the ordering looks at the pattern alone; a heavy diagonal makes sure that it comes to an end
    entries = np.where(at == to, float(len(rows)), -1.0)
    matrix = csc_array((entries, (at, to)), shape=(len(names), len(names)))
    factor = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    place = np.empty(p, dtype=np.intp)
    place[names] = factor.perm_c
    place[~few] = np.arange(len(names), p)
    return place


def gathered(pattern: Pattern, weights: Array) -> Sparse:
    """The matrix whose entries are the sums of the weights (m, K, K) of each two slopes."""
    entries = np.bincount(pattern.where, weights.ravel(), minlength=len(pattern.rows) + 1)
    return Sparse(pattern, np.asarray(entries[: len(pattern.rows)], dtype=np.float64))


def inverse(matrix: Array) -> Array:
    """The inverse (p, p) of a matrix that is a covariance's, by its triangular factor. Raises RuntimeError where it is
    singular.
    """
    from scipy.linalg.lapack import dpotrf, dpotri

    factor, singular = dpotrf(matrix, lower=1)
    half, wrong = dpotri(factor, lower=1) if not singular else (factor, 1)
    if wrong:
        raise RuntimeError("the matrix is singular")
    whole = half + half.T  # above the diagonal the factor is nought
    whole[range(len(whole)), range(len(whole))] = np.diagonal(half)
    return np.asarray(whole)


def product(one: Array, other: Array) -> Array:
    """One (m, p), nearly empty, times other (p, q)."""
    from scipy.sparse import csr_array

    return np.asarray(csr_array(one) @ other)
