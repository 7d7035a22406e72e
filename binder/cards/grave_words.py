"""What must not be driven, as it stands on the cards it concerns: the whole list is on the cover."""

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Finding


def grave_findings(assessment: Assessment, *starts: str) -> tuple[Finding, ...]:
    """Findings that say not to drive, by the start of their keys."""
    return tuple(
        found
        for found in assessment.findings
        if found.grade == "do not drive" and found.key.startswith(starts)
    )


def stop_words(what: str, findings: tuple[Finding, ...]) -> str:
    """One sentence that stops whoever picks up a card."""
    first = findings[0].text.rstrip(".").split(": ", 1)[-1].split(" (")[0]
    more = " See the cover." if len(findings) > 1 else ""
    return f"{what}: {first[:1].lower()}{first[1:]}.{more}"
