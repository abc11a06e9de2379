"""Where the bridge and each string's ridge stand by what may be to blame, with all that is uncertain of them: the
readings, the place that the bridge should have, and which fault it is.

While several faults may be to blame, a ± spans what each of them would mean.
"""

import math

import numpy as np

from geometry.frame import Array, Points
from geometry.job import Job, Reading
from geometry.layout import TWO_SIDED_95, Record
from geometry.placed.place_everything import OnStrings
from geometry.proof import fitting
from geometry.proof.filing import WALL
from geometry.proof.fitting import Fit, Way
from geometry.proof.proof_places import Places, spans
from geometry.saddle.in_pieces.pieces import ridge_line
from geometry.saddle.string_plans import begins
from geometry.spacing import CENTS


class StringPlace(Record, frozen=True):
    """One string on the saddle as the bridge is: its ridge `off` mm too far from the nut (+) or too near, ± `pm95`, the
    same in `cents` at fret 12 (+ flat). `file` is how far the ridge is to be filed toward the tail (+) or the nut for
    it, as far as the saddle's thickness goes, and `left` what stays then, mm, `left_cents` in cents.
    """

    name: str
    off: float
    pm95: float
    cents: float
    cents95: float
    file: float
    left: float
    left_cents: float


class Pose(Record, frozen=True):
    """Where the bridge is, less where it belongs or where the old one was: along the neck (+ toward the tail) and
    across it (+ left), mm, and its turn in degrees (+ counter-clockwise), each with its ±.
    """

    along: float
    across: float
    turn: float
    along_pm95: float
    across_pm95: float
    turn_pm95: float


class Carried:
    """All that a fit means for the bridge and its strings."""

    def __init__(self, places: Places, on: OnStrings, found: Fit, readings: tuple[Reading, ...]) -> None:
        self.places, self.on, self.found = places, on, found
        whole = spans(places, tuple((reading.of[0], reading.of[1]) for reading in readings))
        noise = fitting.noise_of(whole, readings, fitting.hand_of(places))
        self.known = fitting.unknowns(places, whole, noise)
        self.alone = noise.own + np.diag(whole.extra)

    def pose(self) -> Pose:
        """Where the bridge stands, by the middle of its slot."""
        every = [self._pose(way) for way in self.found.ways]
        value, pms = spanned(np.array([one for one, _ in every]), np.array([pm for _, pm in every]))
        along, across, turn = value.tolist()
        return Pose(
            along=along,
            across=across,
            turn=math.degrees(turn),
            along_pm95=float(pms[0]),
            across_pm95=float(pms[1]),
            turn_pm95=math.degrees(float(pms[2])),
        )

    def _pose(self, way: Way) -> tuple[Array, Array]:
        """Its pose (3,) by one fault, and its ±: beside the sheet, and where a wrong sheet has it."""
        places, neck = self.places, complex(self.places.sheet.way[0])
        far = (places.pivot - complex(places.sheet.at[0])) / neck
        gone = (self._by_sheet(way, places.pivot) - places.pivot) / neck
        over = places.turn_over() if way.cause == "swapped" else 0.0
        gain = way.gain + np.array(((far.real, 0.0), (0.0, far.imag), (0.0, 0.0))) @ way.grows
        pms = TWO_SIDED_95 * np.sqrt(np.diag(gain @ self.found.cov @ gain.T))
        return way.pose + np.array((gone.real, gone.imag, over)), pms

    def strings(self, job: Job) -> tuple[StringPlace, ...]:
        """Each string's ridge as the bridge is; none where it hangs on which fault it is by more than its ±."""
        slot = self.on.slot
        wanted = self.on.strung.break_point
        line = ridge_line(self.on.pieces, wanted[0].imag)
        ridge = (self.on.peaks.at * slot.thickness).tolist()
        nominal = line + 1j * wanted[0].imag
        every = [self._off(way, nominal, wanted) for way in self.found.ways]
        offs = np.array([off for off, _ in every])
        if (np.ptp(offs, axis=0) > every[0][1]).any():
            return ()
        off, pms = spanned(offs, np.array([pm for _, pm in every]))
        found = []
        lengths = np.abs(wanted[0] - begins(self.on.strung, self.on.wanted.ready.places)).tolist()
        for i, string in enumerate(job.strings.list if job.strings else ()):
            want = slot.peak * slot.thickness + float(wanted[0, i].real - line[i]) - float(off[i])
            filed = min(max(want, min(WALL, ridge[i])), max(slot.thickness - WALL, ridge[i])) - ridge[i]
            per = CENTS / lengths[i]
            beyond = filed + ridge[i] - want
            found.append(
                StringPlace(
                    name=string.name,
                    off=float(off[i]),
                    pm95=float(pms[i]),
                    cents=per * float(off[i]),
                    cents95=per * float(pms[i]),
                    file=filed,
                    left=beyond,
                    left_cents=per * beyond,
                )
            )
        return tuple(found)

    def _off(self, way: Way, nominal: Points, wanted: Points) -> tuple[Array, Array]:
        """How far the bridge has carried each string's ridge (n,) from where it belongs by one fault, mm, with its ±:
        that of the pose and of the sheet's size, and that of the place where it belongs, which all hang on the same
        survey. A bridge that was set by a wrong sheet stands where that sheet has it, and by the pose beside it.
        """
        places, neck = self.places, complex(self.places.sheet.way[0])
        stands = np.array([self._by_sheet(way, complex(place)) for place in nominal])
        longer = ((nominal - complex(places.sheet.at[0])) * np.conj(neck)).real
        turned = (1j * (nominal - places.pivot) * np.conj(neck)).real
        moved = np.column_stack((np.ones(len(nominal)), np.zeros(len(nominal)), turned))
        carried = np.array([places.sheet.carried(complex(place)) for place in stands]).T
        belongs = places.states.gradient((wanted - carried).real)
        gain = moved @ way.gain + np.outer(longer, way.grows[0])
        slopes = self.known.slopes @ gain.T
        slopes[: len(belongs)] += belongs
        variance = (slopes * (self.known.spread @ slopes)).sum(axis=0) + ((gain @ self.alone) * gain).sum(axis=1)
        off = ((stands - nominal) * np.conj(neck)).real + moved @ way.pose
        return off, TWO_SIDED_95 * np.sqrt(np.maximum(variance, 0.0))

    def _by_sheet(self, way: Way, place: complex) -> complex:
        """Where the sheet as it was laid has a place of the bridge."""
        if way.cause == "scale":
            return self.places.sheet.grown(place, way.size)
        return self.places.turned_over(place) if way.cause == "swapped" else place


def spanned(values: Array, pms: Array) -> tuple[Array, Array]:
    """From values (ways, n) and their ± the middle (n,) between the least and the most that any of them allows, and its
    ±.
    """
    least, most = (values - pms).min(axis=0), (values + pms).max(axis=0)
    return (least + most) / 2, (most - least) / 2
