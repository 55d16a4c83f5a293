"""A sound entry's folder, laid into content/firings/ in one step; never over another, never half.

Everything is made ready in a hidden folder beside the firings, on the same disk, so that a single rename brings it in.
What a killed run leaves there is never read as a firing, and the next run clears it.
"""

from __future__ import annotations

import contextlib
import filecmp
import shutil
import tempfile
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem, has_errors
from builder.checks.check import check_entry
from builder.checks.fault import shown
from builder.checks.firing import Firing
from builder.entries.find import ENTRY, FIRINGS, EntryFile
from builder.examine import check_all
from builder.publish.swap import locked
from builder.settings import Settings

ASIDE = ".intake-"
"""How the names of the hidden folders begin."""
LOCK = Path(".ashbook") / "intake"


@dataclass(frozen=True, slots=True)
class Ready:
    """A folder that has been looked at, and what it gives."""

    folder: Path
    """Where it lies now: aside."""
    problems: tuple[Problem, ...]
    firing: Firing | None
    """None where an error stands in the way."""

    @property
    def slug(self) -> str:
        """Name of the folder, and of the firing."""
        return self.folder.name


@contextlib.contextmanager
def aside(project: Path) -> Iterator[Path]:
    """Give a hidden folder on the firings' disk, for one run at a time; OutputRefused while another one is at work."""
    root = project / FIRINGS
    with locked(project / LOCK):
        root.mkdir(parents=True, exist_ok=True)
        for left_over in root.glob(f"{ASIDE}*"):
            shutil.rmtree(left_over, ignore_errors=True)
        with tempfile.TemporaryDirectory(prefix=ASIDE, dir=root) as folder:
            yield Path(folder)


def examine_aside(folder: Path, shown_in: str, settings: Settings) -> Ready:
    """Look at an entry's folder that lies aside; `shown_in` is what the potter knows it by."""
    entry = EntryFile(folder.name, folder, folder / ENTRY, f"{shown_in}/{folder.name}/{ENTRY}")
    problems = next(check_all([entry], settings, jobs=1))
    firing = None if has_errors(problems) else check_entry(entry, settings).firing
    return Ready(folder, problems, firing)


def named_files(firing: Firing) -> frozenset[str]:
    """Return the names of all files that an entry names, its own among them."""
    readings = firing.readings.file if firing.readings is not None else None
    return frozenset({ENTRY, *(photo.file for photo in firing.photos), *([readings] if readings else [])})


def taken(slug: str, project: Path, shown_in: str) -> Problem | None:
    """Say that a firing of this name is there already; None where there is none."""
    root = project / FIRINGS
    names = {_folded(item.name): item.name for item in root.iterdir()} if root.is_dir() else {}
    there = names.get(_folded(slug))
    if there is None:
        return None
    message = f"There is a firing {shown(there)} in the archive already; nothing is written over it."
    help_ = f"If it is the same fire, change `{(FIRINGS / there).as_posix()}/{ENTRY}`; if not, name it `{slug}-2`, say."
    return problem("firing-exists", Place(shown_in), "", message, help_)


def is_there(ready: Ready, project: Path) -> bool:
    """Tell whether this very firing is in the archive already: the files that it names and no others, byte for byte."""
    target = project / FIRINGS / ready.slug
    if ready.firing is None or target.is_symlink() or not target.is_dir():
        return False
    named = sorted(named_files(ready.firing))
    return sorted(item.name for item in target.iterdir()) == named and not any(
        filecmp.cmpfiles(ready.folder, target, named, shallow=False)[1:]
    )


def lay(ready: Ready, project: Path) -> Path:
    """Bring a folder in with one rename. Raises FileExistsError where one has come there meanwhile."""
    target = project / FIRINGS / ready.slug
    if target.exists() or target.is_symlink():
        raise FileExistsError(target)
    return ready.folder.rename(target)


def _folded(name: str) -> str:
    return unicodedata.normalize("NFC", unicodedata.normalize("NFKC", name).casefold())
