"""Several files changed and folders taken away as one step, which a kill in the middle cannot leave half done.

All new contents are written aside first. Renaming that folder to its final name is the moment of decision: before it
nothing has changed, after it the next call finishes what is left, and no other command runs until then.
"""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterable, Mapping
from pathlib import Path

JOURNAL = ".ashbook-unfinished"
"""Folder in the project that holds what has been decided and not yet done."""
_PLAN = "plan.json"


def is_unfinished(project: Path) -> bool:
    """Tell whether an earlier change was cut off after it had been decided."""
    return (project / JOURNAL).is_dir()


def clear_done(project: Path) -> None:
    """Take away what a change that is done has put aside, where its call was killed before it could do so itself."""
    shutil.rmtree(project / f"{JOURNAL}-done", ignore_errors=True)


def carry_out(project: Path, writes: Mapping[Path, bytes], gone: Iterable[Path]) -> None:
    """Write these files and take these folders away, or do nothing of it. Paths lie in the project."""
    ready = project / f"{JOURNAL}-new"
    if ready.exists():
        shutil.rmtree(ready)
    ready.mkdir()
    try:
        for number, data in enumerate(writes.values()):
            _write(ready / f"write-{number}", data)
        plan = {
            "write": [path.relative_to(project).as_posix() for path in writes],
            "gone": [path.relative_to(project).as_posix() for path in gone],
        }
        _write(ready / _PLAN, json.dumps(plan).encode())
        ready.rename(project / JOURNAL)
    except BaseException:
        shutil.rmtree(ready, ignore_errors=True)
        raise
    finish(project)


def finish(project: Path) -> None:
    """Do what is left of a change that was decided; each step may have been done already."""
    journal = project / JOURNAL
    plan = json.loads((journal / _PLAN).read_text(encoding="utf-8"))
    for number, name in enumerate(plan["write"]):
        staged = journal / f"write-{number}"
        if staged.exists():
            staged.replace(project / name)
    for number, name in enumerate(plan["gone"]):
        if (project / name).exists():
            (project / name).rename(journal / f"gone-{number}")
    done = project / f"{JOURNAL}-done"
    if done.exists():
        shutil.rmtree(done)
    journal.rename(done)
    shutil.rmtree(done)


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())
