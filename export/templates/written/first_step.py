"""What comes first with sheets, however the bridge is held."""

SCALES = "Lay a rule on both scales of every template"


def scales(file: str) -> str:
    """To read each sheet's scales, and to see that it is of the same file (a fingerprint; empty: not known). Derived: a
    sheet that was printed before a reading was changed agrees with itself in every scale and distance.
    """
    return f"{SCALES}; all must be of file {file}." if file else f"{SCALES} that was printed."
