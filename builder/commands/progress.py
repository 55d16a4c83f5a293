"""A progress bar on a terminal; nothing anywhere else."""

from __future__ import annotations

import sys
from types import TracebackType
from typing import TextIO

WIDTH = 30


class Progress:
    """Shows how far one stage has come. Use as a context manager."""

    def __init__(self, stage: str, total: int, stream: TextIO | None = None) -> None:
        self.stage = stage
        self.total = total
        self.done = 0
        self.stream = stream or sys.stderr
        self.shown = self.stream.isatty() and total > 0

    def __enter__(self) -> Progress:
        self._draw()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def step(self) -> None:
        """Count one more thing as done."""
        self.to(self.done + 1)

    def to(self, done: int) -> None:
        """Show that `done` of all are done; redraws only when the bar would look different."""
        before = self._filled()
        self.done = done
        if self._filled() != before or done == self.total:
            self._draw()

    def close(self) -> None:
        """Wipe the bar away."""
        if self.shown:
            self.stream.write("\r\x1b[K")
            self.stream.flush()

    def _filled(self) -> int:
        return WIDTH * self.done // self.total if self.total else 0

    def _draw(self) -> None:
        if self.shown:
            filled = self._filled()
            bar = "█" * filled + "·" * (WIDTH - filled)
            self.stream.write(f"\r{self.stage:<11} {bar} {self.done}/{self.total}\x1b[K")
            self.stream.flush()


class StagedProgress:
    """Shows the stages of a build one after another; call it as `build`'s `tell`."""

    def __init__(self) -> None:
        self.bar: Progress | None = None

    def __call__(self, stage: str, done: int, of: int) -> None:
        """Show a stage's progress."""
        if self.bar is None or self.bar.stage != stage:
            self.close()
            self.bar = Progress(stage, of)
            self.bar.__enter__()
        self.bar.to(done)

    def close(self) -> None:
        """Wipe the last bar away."""
        if self.bar is not None:
            self.bar.close()
            self.bar = None
