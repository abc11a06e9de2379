"""What the survey's verdict means for the person, as findings that point at the readings."""

from geometry import words
from geometry.findings import Finding, Grade, look
from geometry.job import Job
from geometry.layout import accused_in_order
from geometry.survey.result import Surveyed

GRADES: dict[str, Grade] = {
    "loose": "look",
    "either side": "look",
    "swapped": "look",
    "one of these": "look",
    "misread": "look",
    "unchecked": "look",
    "coarse": "look",
    "clean": "good",
}


def survey_findings(job: Job, surveyed: Surveyed) -> tuple[Finding, ...]:
    """The verdict, what may lie on either side, and each loose point with what would hold it. A job without readings
    has nothing to say yet.
    """
    report = surveyed.report
    found = []
    if surveyed.fits or report.loose:
        named = accused_in_order(report)
        found.append(
            Finding(
                grade=GRADES[report.verdict],
                code=f"survey.{report.verdict.replace(' ', '_')}",
                text=report.why.whole,
                values={"dof": float(report.dof), "vtpv": report.vtpv},
                where=f"reading:{named[0]}" if named else "step:measure",
            )
        )
    if surveyed.besides:
        where = next((f"point:{name}" for name in report.elsewhere), "step:measure")
        found.append(look("point.either_side", surveyed.besides, where))
    for loose in report.loose:
        found.append(
            look(
                "point.loose",
                f"{words.first_large(words.called(loose.point, job.hand))} can still move. {loose.held_by}",
                f"point:{loose.point}",
            )
        )
    return tuple(found)
