"""Where a trial saddle lies: between its two ends as measured or, where the trial is a floating bridge as it stands
today, behind the front corners of its feet.
"""

import numpy as np

from geometry.frame import Points, unit
from geometry.job import Job, Saddle
from geometry.job.bridges.floating import STANDS, TODAY
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.units import mm


def trial_ends(job: Job, states: PerturbedStates, frame: NeckFrame, name: str) -> tuple[Points, Points] | None:
    """The left and right end of a trial saddle in all rows, (rows, 1) each; None while they are not measured."""
    own = (f"trial.{name}.left", f"trial.{name}.right")
    if states.has(*own):
        left, right = np.split(frame.see(states, *own), 2, axis=1)
        return left, right
    if name != TODAY or job.floating is None or not states.has(*STANDS):
        return None
    left, right = np.split(frame.see(states, *STANDS), 2, axis=1)
    saddle = job.saddle or Saddle()
    peaks = job.floating.to_crown + (saddle.peak_at - 0.5) * mm(saddle.thickness)
    back = -1j * unit(left - right) * peaks
    return left + back, right + back
