"""Saddles of their own on bases that are screwed down: whether their travel reaches every string's place."""

from geometry.job import Job
from geometry.layout import Layout
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnNeck, OnStrings


def with_separate(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, layout: Layout) -> Layout:  # noqa: ARG001
    """The layout with it and what is to be said of it."""
    return layout
