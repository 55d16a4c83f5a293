"""Builds that are killed, starved and disturbed; what must hold of the site and of the words afterwards."""

from __future__ import annotations

import os
import shutil
import signal
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from random import Random

from builder.build import Options, build
from builder.commands.cli import main
from tests.commands.archives import write_archive

Bytes = dict[str, bytes]


def site_bytes(folder: Path) -> Bytes:
    """Return every file of a site."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def in_a_process(project: Path, words: Path) -> int:
    """Start `ashbook build` in a process of its own and return its number; what it prints goes to a file."""
    child = os.fork()
    if child:
        return child
    code = 70
    try:
        with words.open("w", encoding="utf-8") as told:
            sys.stdout = sys.stderr = told
            code = main(["--project", str(project), "build", "--jobs", "1"])
    finally:
        os._exit(code)


def end_of(child: int) -> int:
    """Wait for a process; its exit code, or minus the signal that ended it."""
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


@dataclass(slots=True)
class Killed:
    """What came of many kills."""

    killed: int = 0
    finished: int = 0
    """Builds that were done before the blow fell."""
    looks: int = 0
    """Times that the site was read while a build was at work."""
    faults: list[str] | None = None


def kill_builds(folder: Path, times: int, seed: int = 1) -> Killed:
    """Kill builds at random moments, between two versions of an archive; the site must always be one of the two whole.

    Each build works in the leavings of the killed one before it. At the end one more build must succeed.
    """
    rng = Random(seed)
    project = write_archive(folder / "archive", 2)
    entry = project / "content" / "firings" / "2026-05-02-fire-2" / "entry.md"
    texts = [entry.read_text(encoding="utf-8").replace("Fire 2", title) for title in ("Old fire", "New fire")]
    versions = []
    for text in texts:
        entry.write_text(text, encoding="utf-8")
        assert build(Options(project, project / "site", jobs=1)).published == 2
        versions.append(site_bytes(project / "site"))
    shutil.rmtree(project / ".ashbook")
    took = {}
    for fresh, text in zip((True, False), texts, strict=True):
        entry.write_text(text, encoding="utf-8")
        began = time.monotonic()
        assert end_of(in_a_process(project, folder / "words")) == 0
        took[fresh] = time.monotonic() - began
    result = Killed(faults=[])
    for number in range(times):
        entry.write_text(texts[number % 2], encoding="utf-8")
        fresh = number % 3 == 0
        if fresh:
            shutil.rmtree(project / ".ashbook", ignore_errors=True)
        _kill_one(project, folder / "words", rng.uniform(0, took[fresh]), versions, result)
    entry.write_text(texts[1], encoding="utf-8")
    code, now = end_of(in_a_process(project, folder / "words")), site_bytes(project / "site")
    if code:
        _fault(result, f"the next build did not succeed: {(folder / 'words').read_text(encoding='utf-8')}")
    other = sorted(name for name in now | versions[1] if now.get(name) != versions[1].get(name))
    if other:
        _fault(result, f"the next build differs in {other}")
    strangers = {path.name for path in project.iterdir()} - {"content", "site", "site_config.yml", ".ashbook"}
    if strangers:
        _fault(result, f"left behind: {sorted(strangers)}")
    return result


def _kill_one(project: Path, words: Path, seconds: float, versions: list[Bytes], result: Killed) -> None:
    child = in_a_process(project, words)
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        result.looks += 1
        try:
            if not (project / "site" / "index.html").read_bytes().rstrip().endswith(b"</html>"):
                _fault(result, "half a page was there to be served")
        except OSError as error:
            _fault(result, f"the site could not be served: {error}")
        time.sleep(0.004)
    os.kill(child, signal.SIGKILL)
    code = end_of(child)
    result.killed += code == -signal.SIGKILL
    result.finished += code == 0
    if code not in (0, -signal.SIGKILL):
        _fault(result, f"exit {code}: {words.read_text(encoding='utf-8')}")
    if site_bytes(project / "site") not in versions:
        _fault(result, f"killed after {seconds:.3f} s the site is neither the old one nor the new one")


def _fault(result: Killed, words: str) -> None:
    assert result.faults is not None
    result.faults.append(words)
