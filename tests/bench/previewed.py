"""From saving an entry to seeing it: the real `ashbook preview`, asked for the entry's page until that is another."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

PATIENCE_S = 120.0
"""Longer than any renewal takes; a preview that shows nothing by then is a bug."""
ASK_AGAIN_S = 0.02


def until_seen(project: Path, entry: Path, words: str) -> tuple[float, float]:
    """Preview a project that is built, save words at the end of an entry, and wait until they are seen.

    Return the seconds by the clock, and those that the preview's processor was at work for.
    """
    command = [sys.executable, "-m", "builder", "--project", str(project), "preview", "--port", "0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as preview:
        try:
            page = f"{_address(preview)}firings/{entry.parent.name}.html"
            time.sleep(4)  # until what was built is rested, as it is when somebody writes
            before = _processor_s(preview.pid)
            with entry.open("a", encoding="utf-8") as file:
                file.write(f"\n\n{words}\n")
            return _wait(page, words.encode()), _processor_s(preview.pid) - before
        finally:
            preview.terminate()


def _address(preview: subprocess.Popen[str]) -> str:
    """Read where the preview says that it can be seen."""
    for line in preview.stdout or ():
        if found := re.search(r"http://127\.0\.0\.1:\d+/", line):
            return found[0]
    raise RuntimeError("the preview ended before it could be seen")


def _processor_s(pid: int) -> float:
    """Return what a process and its ended children have used of the processor, s; 0 where the system does not tell."""
    try:
        told = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    except OSError:
        return 0.0
    return sum(int(ticks) for ticks in told[11:15]) / os.sysconf("SC_CLK_TCK")


def _wait(page: str, words: bytes) -> float:
    start = time.perf_counter()
    while (waited := time.perf_counter() - start) < PATIENCE_S:
        with urllib.request.urlopen(page) as answer:
            if words in answer.read():
                return waited
        time.sleep(ASK_AGAIN_S)
    raise RuntimeError(f"{page} does not show what was saved")
