"""One build in a process of its own: `python -m tests.bench.one_build PROJECT` prints seconds by stage as JSON."""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path


class Stopwatch:
    """Adds up the time of each stage; call it as `build`'s `tell`."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}
        self.stage = ""
        self.since = time.perf_counter()

    def __call__(self, stage: str, done: int, of: int) -> None:
        """Close the stage before when a new one begins."""
        if stage != self.stage:
            self.lap()
            self.stage = stage

    def lap(self) -> None:
        """Add the time since the last lap to the stage that ran."""
        now = time.perf_counter()
        self.seconds[self.stage or "Starting"] = self.seconds.get(self.stage, 0.0) + now - self.since
        self.since = now


if __name__ == "__main__":
    watch = Stopwatch()
    from builder.__main__ import leave  # its import is part of what a build costs
    from builder.workers import seldom_collected

    with seldom_collected():
        from builder.asked import Options
        from builder.renew import renew

        project = Path(sys.argv[1])
        renew(Options(project, project / "site"), watch)
        watch.lap()
        print(json.dumps(watch.seconds))
        leave(0)
