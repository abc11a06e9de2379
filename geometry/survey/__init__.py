"""The **survey**: readings turned into places, with how well each is known and which reading to look at again."""

from geometry.survey.adjust.adjustment import Adjusted, adjust
from geometry.survey.adjust.datum import Datum, Fixed, Free, Straightedge
from geometry.survey.adjust.network import Network, network_of
from geometry.survey.result import Surveyed
from geometry.survey.rows.row import Row
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.survey.surveying import survey

__all__ = [
    "Adjusted",
    "Datum",
    "Fixed",
    "Free",
    "Network",
    "Row",
    "Straightedge",
    "Surveyed",
    "adjust",
    "network_of",
    "rows_of",
    "survey",
]
