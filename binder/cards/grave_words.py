"""What must not be driven, as it stands on the cards it concerns: the whole list is on the cover."""

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Finding


def grave_findings(assessment: Assessment, *starts: str) -> tuple[Finding, ...]:
    """Findings that say not to drive, by the start of their keys.

    Args:
        assessment: the rig on its trip.
        *starts: of keys; a finding with any of them is given [text].

    Returns:
        The findings in the order they matter.

    Sources:
        The findings.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> assessment = assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1))
        >>> grave_findings(assessment, "tires.")
        ()
    """
    return tuple(
        found
        for found in assessment.findings
        if found.grade == "do not drive" and found.key.startswith(starts)
    )


def stop_words(what: str, findings: tuple[Finding, ...]) -> str:
    """One sentence that stops whoever picks up a card.

    Args:
        what: must not be done, such as ``DO NOT TOW`` [text].
        findings: that say so.

    Returns:
        The sentence with the gravest finding, and where the others stand.

    Sources:
        The findings.

    Example:
        >>> finding = Finding("do not drive", 4, "coupling.coach_car.brake", "The car has no brake.")
        >>> stop_words("DO NOT TOW", (finding,))
        'DO NOT TOW: the car has no brake.'
    """
    first = findings[0].text.rstrip(".").split(": ", 1)[-1].split(" (")[0]
    more = " See the cover." if len(findings) > 1 else ""
    return f"{what}: {first[:1].lower()}{first[1:]}.{more}"
