"""The demo rigs as they are kept, without the log that setting up reads into one of them."""

import atexit
import shutil
from pathlib import Path
from tempfile import mkdtemp

LOGS = "log.sqlite*"
KEPT = Path(__file__).resolve().parents[1] / "profiles"


def without_logs(kept: Path) -> Path:
    """Give a folder of rigs itself where none has a log, else a copy without, gone with this process."""
    if not any(kept.glob(f"*/{LOGS}")):
        return kept
    folder = Path(mkdtemp(prefix="demos-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return Path(shutil.copytree(kept, folder / kept.name, ignore=shutil.ignore_patterns(LOGS)))


PROFILES = without_logs(KEPT)
