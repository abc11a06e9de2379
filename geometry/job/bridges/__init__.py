"""Bridges that are not one flat piece glued to the top, a block of the job file each; how a job's bridge is held."""

from typing import Literal

Held = Literal["glue", "strings", "screws"]
"""How a bridge is held: glued to the top, by the strings alone, or each string's saddle on a base that is screwed."""
