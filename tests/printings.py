"""What nine rigs print on a fixed date, so that a change of structure can show that it changed no byte.

``python -m tests.printings`` builds the four demos and the five test rigs and compares the SHA-256 of
each file with those kept in ``tests/gold/printings.json``; ``--keep`` keeps the new ones. ``--texts DIR``
only words them: it writes the pages as HTML, the record, every explanation and every finding to a folder,
in a tenth of the time, for ``diff -r`` with a folder written before.
"""

import hashlib
import json
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from binder.assessment.assess import Assessment, assess
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.cards.order import binder_document
from binder.models.load import load_profile
from binder.printing.build import BuildOptions, build, printable_cards
from binder.rendering.html import ring_html
from binder.wording.record import assessment_record, explanation
from binder.wording.sentences import key_text
from tests.demos import PROFILES
from tests.rendering.whole_binder import binder_html

ROOT = Path(__file__).resolve().parents[1]
KEPT = ROOT / "tests" / "gold" / "printings.json"
ON = date(2026, 6, 1)


def printed_trips() -> Iterator[tuple[Path, str | None]]:
    """Each rig with each of its trips; one without a plan alone."""
    for rig in sorted([*PROFILES.iterdir(), *(ROOT / "tests" / "rigs").iterdir()]):
        names = sorted(file.stem for file in rig.glob("trips/*.yaml"))
        yield from ((rig, name) for name in names)
        if not names:
            yield rig, None


def hashes(rig: Path, trip: str | None) -> dict[str, str]:
    """SHA-256 of each file of one printing."""
    with TemporaryDirectory() as folder:
        out = Path(folder) / "printing"
        build(rig, BuildOptions(ON, trip, out))
        return {
            f"{rig.name}/{trip or 'no trip'}/{file.name}": hashlib.sha256(file.read_bytes()).hexdigest()
            for file in sorted(out.iterdir())
            if file.is_file()
        }


def texts(rig: Path, trip: str | None) -> dict[str, str]:
    """What one printing says, before it is typeset."""
    profile = load_profile(rig, trip)
    refuse_contradictions(profile)
    assessment = assess(profile, ON)
    cards = printable_cards(assessment)
    paper = profile.rig.paper
    return {
        "cards.html": ring_html(cards, paper),
        "binder.html": binder_html(binder_document(assessment, cards), paper),
        "numbers.json": json.dumps(assessment_record(assessment), indent=1, ensure_ascii=False),
        "explain.txt": _explained(assessment),
    }


def _explained(assessment: Assessment) -> str:
    keys = sorted(key_text(figure.key) for figure in assessment.ledger.entered)
    return "\n\n".join(explanation(assessment, key) for key in keys)


def _compared(kept: dict[str, str], found: dict[str, str]) -> list[str]:
    return [name for name in sorted({*kept, *found}) if kept.get(name) != found.get(name)]


def _write_texts(folder: Path) -> None:
    for rig, trip in printed_trips():
        for name, text in texts(rig, trip).items():
            file = folder / rig.name / (trip or "no trip") / name
            file.parent.mkdir(parents=True, exist_ok=True)
            # A line an element, so that a difference is shown where it is.
            file.write_text(text.replace("><", ">\n<"), encoding="utf-8")


def main() -> int:
    """Compare, keep, or word all printings; how many files differ is what it ends with, at most 1."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("--keep", action="store_true", help="keep the hashes of what is printed now")
    parser.add_argument("--texts", type=Path, metavar="DIR", help="write the texts to a folder instead")
    given = parser.parse_args()
    if given.texts:
        _write_texts(given.texts)
        return 0
    found: dict[str, str] = {}
    with ProcessPoolExecutor(2) as pool:
        for several in pool.map(hashes, *zip(*printed_trips(), strict=True)):
            found |= several
    if given.keep:
        KEPT.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
        return 0
    changed = _compared(json.loads(KEPT.read_text(encoding="utf-8")), found)
    sys.stdout.write("".join(f"differs: {name}\n" for name in changed))
    sys.stdout.write(f"{len(found) - len(changed)} of {len(found)} files as kept\n")
    return int(bool(changed))


if __name__ == "__main__":
    sys.exit(main())
