"""A command, timed: by the clock, by the processors of its whole tree, and the most memory that the tree held."""

from __future__ import annotations

import os
import subprocess
import threading
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Run:
    """What one run of a command cost."""

    seconds: float
    processor_s: float
    """Of the command and all processes that it started."""
    memory_mib: float
    """The most that the tree held at once, what its processes share counted once (PSS)."""
    said: str
    """What it wrote to its output."""


def run(command: Sequence[str], cwd: Path | None = None) -> Run:
    """Run a command to its end and measure it; a command that fails is a bug of the benchmark."""
    # Bytecode is kept, as it is for everybody, whatever the shell that the benchmark was called from says.
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    pipe = subprocess.PIPE
    before, start = os.times(), time.perf_counter()
    with subprocess.Popen(command, cwd=cwd, stdout=pipe, stderr=pipe, text=True, env=env) as process:
        watch = _Memory(process.pid)
        watch.start()
        said, complained = process.communicate()
        watch.stop()
    seconds, after = time.perf_counter() - start, os.times()
    if process.returncode:
        raise RuntimeError(f"{' '.join(command)} failed:\n{complained}")
    used = after.children_user + after.children_system - before.children_user - before.children_system
    return Run(seconds, used, watch.most_kib / 1024, said)


class _Memory(threading.Thread):
    """Looks at the memory of a process and its descendants, ten times a second, where the system tells."""

    def __init__(self, pid: int) -> None:
        super().__init__(daemon=True)
        self.most_kib = 0
        self._pid, self._over = pid, threading.Event()

    def run(self) -> None:
        """Look until the command is over."""
        while not self._over.wait(0.1):
            self.most_kib = max(self.most_kib, sum(_kib(pid) for pid in _tree(self._pid)))

    def stop(self) -> None:
        """Look no more."""
        self._over.set()
        self.join()


def _tree(pid: int) -> Iterator[int]:
    yield pid
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()
    except OSError:
        return
    for child in children:
        yield from _tree(int(child))


def _kib(pid: int) -> int:
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0
    return next((int(line.split()[1]) for line in lines if line.startswith("Pss:")), 0)
