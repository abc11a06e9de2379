"""The sheet as it is laid: to the board's end (or to the nut, where no end was read) and along both edge lines.

What it shows moves with these, and with nothing else.
"""

import msgspec
import numpy as np

from geometry.frame import Array, Points, bisector, dot
from geometry.neck.find_neck import NeckFrame


class Sheet(msgspec.Struct, frozen=True, eq=False):
    """The sheet in all rows: where it begins on the middle between the edge lines, and which way it runs (rows,)."""

    at: Points
    way: Points

    def carried(self, places: Points | complex) -> Points:
        """Places of the first row (...) where the sheet carries them in each row, (rows, ...)."""
        moved: Points = np.multiply.outer(self.way, (places - self.at[0]) * self.way[0].conj())
        return self.at.reshape(-1, *(1,) * (moved.ndim - 1)) + moved

    def beyond(self, places: Points) -> Array:
        """How far places (rows, k) lie along the neck, in each row, from where the sheet carries those of the first."""
        return np.asarray(((places - self.carried(places[0])) / self.way[0]).real)

    def grown(self, place: complex, size: Array) -> complex:
        """A place on a sheet that is larger by parts of the whole (2,): along the neck, and across it."""
        own = (place - complex(self.at[0])) * complex(self.way[0]).conjugate()
        return place + complex(self.way[0]) * complex(size[0] * own.real, size[1] * own.imag)

    def turned_over(self, place: complex) -> complex:
        """A place on a sheet that lies with its face down."""
        own = (place - complex(self.at[0])) * complex(self.way[0]).conjugate()
        return complex(self.at[0]) + complex(self.way[0]) * own.conjugate()


def lay_sheet(frame: NeckFrame) -> Sheet:
    """The sheet as it is laid to the board."""
    at, way = bisector(frame.edge[:, 0], frame.edge_way[:, 0], frame.edge[:, 1], frame.edge_way[:, 1])
    corners = frame.nut if frame.ends is None else frame.ends
    start = corners.mean(axis=1)
    return Sheet(at + way * dot(way, start - at), way)
