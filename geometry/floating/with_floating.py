"""A bridge held by the strings alone: where its feet stand and its saddle is cut."""

from geometry.job import Job
from geometry.layout import Layout
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnNeck, OnStrings


def with_floating(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:  # noqa: ARG001
    """The layout with it and what is to be said of it."""
    return layout
