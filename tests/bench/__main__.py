"""`python -m tests.bench [COUNT …]`: time by stage of a build, and its growth with the number of firings."""

from __future__ import annotations

import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from builder.build import Options, build
from tests.bench.archive_maker import make_archive


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
        if self.stage:
            self.seconds[self.stage] = self.seconds.get(self.stage, 0.0) + now - self.since
        self.since = now


def main(counts: list[int]) -> None:
    """Build archives of each size; print seconds, and milliseconds a firing, by stage."""
    print(f"{'firings':>8} {'stage':<16} {'seconds':>8} {'ms a firing':>12}")
    totals: dict[int, float] = {}
    for count in counts:
        with tempfile.TemporaryDirectory() as folder:
            archive = Path(folder) / "archive"
            make_archive(archive, count)
            watch = Stopwatch()
            start = time.perf_counter()
            build(Options(archive, archive / "site"), watch)
            watch.lap()
            totals[count] = time.perf_counter() - start
            for stage, seconds in watch.seconds.items():
                print(f"{count:>8} {stage:<16} {seconds:>8.2f} {1000 * seconds / count:>12.2f}")
            print(f"{count:>8} {'whole build':<16} {totals[count]:>8.2f} {1000 * totals[count] / count:>12.2f}")
            _plain(archive, count)
    memory = max(resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)) / 1024
    print(f"largest process: {memory:.0f} MiB")
    if len(counts) > 1:
        few, many = counts[0], counts[-1]
        growth = (totals[many] / many) / (totals[few] / few)
        print(f"a firing of {many} costs {growth:.2f} times as much as one of {few}")


def _plain(archive: Path, count: int) -> None:
    """Time plain `mkdocs build` over the very pages that the build wrote."""
    config = archive / ".ashbook" / "mkdocs.yml"
    if not config.is_file() or shutil.which("mkdocs", path=str(Path(sys.executable).parent)) is None:
        return
    start = time.perf_counter()
    words = ["build", "--quiet", "--config-file", str(config), "--site-dir", str(archive / "plain")]
    subprocess.run([sys.executable, "-m", "mkdocs", *words], check=True)
    seconds = time.perf_counter() - start
    print(f"{count:>8} {'plain mkdocs':<16} {seconds:>8.2f} {1000 * seconds / count:>12.2f}")


if __name__ == "__main__":
    main([int(word) for word in sys.argv[1:]] or [100, 1000])
