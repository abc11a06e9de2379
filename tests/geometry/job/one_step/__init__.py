"""Blocks of a job, each as the last that is taken and as the first that is refused (derived: the one is as the other,
and one step of a rule or one more of the kind farther).
"""

from tests.geometry.job.one_step import headstock_and_bridge, strings_and_readings

STEPS = headstock_and_bridge.STEPS | strings_and_readings.STEPS
