"""The fractions that a rule shows: a typed one that none shows is a slip, as a figure that was joined to an old one."""

import re

RULED = (128, 48, 100)
"""Rules are ruled in halves down to 128ths, in twelfths down to 48ths, in tenths down to hundredths (common practice,
no source): what is below the line divides one of these."""
_BELOW = re.compile(r"\d\s*/\s*(\d+)")


def why_no_fraction(typed: str) -> str:
    """Why a typed length holds no fraction that a rule shows, in one sentence; empty where it may."""
    below = [int(found) for found in _BELOW.findall(typed)]
    odd = next((number for number in below if number and all(ruled % number for ruled in RULED)), None)
    if odd is None:
        return ""
    return f"“{typed}” has {odd} below the line, which no rule shows; type halves to 128ths, twelfths or tenths"
