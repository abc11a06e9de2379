"""What of a ground is occupied; the ground is divided into square cells."""

import math

import numpy as np

from export.drawing.flatten import Box
from geometry.frame import Points


class OccupiedCells:
    """A ground in cells, `cell` their side (paper mm); what lies beyond the ground is passed over."""

    def __init__(self, ground: Box, cell: float) -> None:
        self.ground, self.cell = ground, cell
        self._columns = math.ceil(ground.width / cell)
        self._rows = [0] * math.ceil(ground.height / cell)
        """The cells' rows, each a number whose bits are its cells: words are tried against them a hundred times."""

    def occupy(self, box: Box) -> None:
        """All cells under a box."""
        rows, cells = self._under(box)
        for j in rows:
            self._rows[j] |= cells

    def is_free(self, box: Box) -> bool:
        """Whether nothing lies in a box."""
        rows, cells = self._under(box)
        return not any(self._rows[j] & cells for j in rows)

    def _under(self, box: Box) -> tuple[range, int]:
        """The rows under a box as far as there are any, and its cells in each."""
        x, y = self.ground.x0, self.ground.y0
        i, j = math.floor((box.x0 - x) / self.cell), math.floor((box.y0 - y) / self.cell)
        i1, j1 = math.ceil((box.x1 - x) / self.cell), math.ceil((box.y1 - y) / self.cell)
        cells = (1 << max(i1, 0)) - (1 << max(i, 0))
        return range(max(j, 0), min(max(j1, 0), len(self._rows))), cells

    def occupy_places(self, z: Points) -> None:
        """The cells of many places, which lie on the ground."""
        cells = np.zeros((len(self._rows), self._columns), dtype=bool)
        i = np.floor((z.real - self.ground.x0) / self.cell).astype(np.intp)
        j = np.floor((z.imag - self.ground.y0) / self.cell).astype(np.intp)
        cells[j.clip(0, len(self._rows) - 1), i.clip(0, self._columns - 1)] = True
        packed = np.packbits(cells, axis=1, bitorder="little")
        self._rows = [
            old | int.from_bytes(row.tobytes(), "little") for old, row in zip(self._rows, packed, strict=True)
        ]
