"""Ids of readings, names of points and strings and titles may be any text: on the page of the command line, on the
sheets and in the window no other word and no number comes from them.

Derived: what stands there under names that occur nowhere else, these put for the names that were drawn.
"""

import datetime
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QLabel, QWidget

from app.cli import bench_page
from app.desk.frame.desk import Desk
from app.edit import old_work
from app.say import terminal
from export.drawing import typeface
from export.drawing.marks import Text
from export.records import Stamp
from export.templates import sheets
from geometry import words
from geometry.job import Job
from geometry.work_out import work_out
from tests.app.desk.conftest import OpenDesk, make_whole
from tests.geometry.any_job.test_any_name import FAMILIES, ODD, OWN, few_readings, metal_near_the_slot, misread, renamed
from tests.geometry.any_job.test_any_name import misread_at_an_own_point as misread_there
