"""What is offered to be read of old holes: their rims, never the middle that nobody sees."""

from geometry.advice.candidates import candidates
from geometry.job import Job


def test_old_holes_are_offered_by_their_rims_from_points_that_are_seen() -> None:
    """derived: two posts, a screw and a seam's end; each hole from the corner and from the seam, none from a hole"""
    at = {"nut.left": 21j, "seam.1": 400 + 0j, "post.1": -40 + 20j, "post.5": -40 - 20j, "screw.1": -80 + 9j}
    read = {(one.kind, one.of) for one in candidates(Job(), at, ("seam.1", "post.1", "post.5", "screw.1"), {})}
    holes = ("post.1", "post.5", "screw.1")
    assert read == {
        ("distance", ("nut.left", "seam.1")),
        *(("rims", (start, hole)) for start in ("nut.left", "seam.1") for hole in holes),
    }
