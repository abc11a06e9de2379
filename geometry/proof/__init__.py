"""The **proof** of a place: distances chosen by what they would reveal, and what they say once they are read."""

from geometry.proof.distances_told import band_words, ends_called, ends_in_short, row_words, within_words
from geometry.proof.proof_at_stage import Proved, Row, latest, prove, wished
from geometry.proof.proof_told import as_finding, dated, said, stage_called, string_words

__all__ = [
    "Proved",
    "Row",
    "as_finding",
    "band_words",
    "dated",
    "ends_called",
    "ends_in_short",
    "latest",
    "prove",
    "row_words",
    "said",
    "stage_called",
    "string_words",
    "wished",
    "within_words",
]
