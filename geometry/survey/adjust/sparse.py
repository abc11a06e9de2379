"""Large networks: most unknowns share no reading, so their normal matrix is nearly empty and is solved as such.

From `SPARSE` unknowns on this pays (measured); scipy is loaded then and not before.
"""

import numpy as np

from geometry.survey.result import Array

SPARSE = 400


def solve(matrix: Array, right: Array) -> Array:
    """Solve matrix (p, p) × x = right (p,) or (p, k). Raises RuntimeError where the matrix is singular."""
    from scipy.sparse import csc_array
    from scipy.sparse.linalg import splu

    return np.asarray(splu(csc_array(matrix), permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True}).solve(right))


def inverse(matrix: Array) -> Array:
    """The inverse (p, p) of a nearly empty matrix. Raises RuntimeError where it is singular."""
    return solve(matrix, np.eye(len(matrix)))


def product(one: Array, other: Array) -> Array:
    """One (m, p), nearly empty, times other (p, q)."""
    from scipy.sparse import csr_array

    return np.asarray(csr_array(one) @ other)
