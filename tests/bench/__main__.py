"""`python -m tests.bench [COUNT …] [--rounds N]`: what builds cost, beside plain mkdocs (and hugo) over the same pages.

Everything is measured in one run, interleaved, as medians, and told as ratios to plain mkdocs: a machine that does
other work at the same time slows all alike. It prints a table in Markdown; it never fails a test.
The reader's side is measured by `python -m tests.bench.browser` and `python -m tests.bench.search`.
"""

from __future__ import annotations

import argparse
import gzip
import json
import shutil
import statistics
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from tests.bench.archive_maker import make_archive
from tests.bench.other_generator import write_hugo_site
from tests.bench.previewed import until_seen
from tests.bench.running import Run, run

COUNTS = (100, 1000)
PLAIN, HUGO, COLD = "plain mkdocs, cold", "hugo, cold", "cold build"
EDITS = ("one entry's story edited", "one entry's readings edited")
SHARES = {COLD: 1.0, **dict.fromkeys(EDITS, 0.1)}
"""The most that each may cost of 1,000 firings, as a share of a plain mkdocs build. An edit among 3,000 takes less than
hugo's build of all pages."""
MEMORY_MIB = 1024
"""The most memory that 10,000 firings may take."""
GROWTH = 1.15
"""How much more a firing of 10,000 may cost than one of 1,000."""
SEEN_S = 2.0
"""What a potter with 1,000 firings waits at most from saving an entry to seeing it in the preview, s."""


@dataclass(slots=True)
class Archive:
    """An archive that is built over and over."""

    folder: Path
    count: int
    runs: dict[str, list[Run]] = field(default_factory=dict)
    seen: list[tuple[float, float]] = field(default_factory=list)
    """Seconds from saving an entry to seeing it in the preview, by the clock and of the processor."""

    aside: int = 0
    """How many folders were put aside."""

    def put_aside(self, *names: str) -> None:
        """Take folders away, but delete nothing: some systems make files slowly where many were deleted lately."""
        for path in (self.folder / name for name in names):
            if path.exists():
                self.aside += 1
                path.rename(self.folder.with_name(f"aside-{self.aside}"))

    def time(self, what: str, *command: str) -> None:
        """Run a command of this Python and take its cost down."""
        self.runs.setdefault(what, []).append(run([sys.executable, *command]))

    def build(self, what: str) -> None:
        """Build the archive and take it down."""
        self.time(what, "-m", "tests.bench.one_build", str(self.folder))

    def median(self, what: str, of: Callable[[Run], float] = lambda one: one.seconds) -> float:
        """Return the median over the rounds."""
        return statistics.median(of(one) for one in self.runs[what])


def measure(archive: Archive, rounds: int) -> None:
    """Build an archive in every way that counts, in turns."""
    make_archive(archive.folder, archive.count)
    for number in range(rounds):
        archive.put_aside(".ashbook", "site", "plain")
        archive.build(COLD)
        _plain(archive)
        _hugo(archive)
        archive.build("first build after it")
        archive.build("nothing changed")
        _edit(archive.folder, archive.count // 2, "\n---\n", f"\n---\nRound {number}. ")
        archive.build(EDITS[0])
        _edit(archive.folder, archive.count // 3 + number, "    7:00  ", "    7:01  ")
        archive.build(EDITS[1])
        settings = archive.folder / "site_config.yml"
        settings.write_text(
            settings.read_text("utf-8").replace("title: Benchmark", "title: Benchmark again", 1), "utf-8"
        )
        archive.build("the archive's title edited")
        archive.time("check", "-m", "builder", "--project", str(archive.folder), "check")
        entry = _entry(archive.folder, archive.count // 4)
        archive.seen.append(until_seen(archive.folder, entry, f"Seen in round {number}."))


def _edit(folder: Path, number: int, old: str, new: str) -> None:
    """Change the last place in an entry where some words stand."""
    entry = _entry(folder, number)
    before, found, after = entry.read_text(encoding="utf-8").rpartition(old)
    if not found:
        raise RuntimeError(f"{entry} holds no {old!r} to change")
    entry.write_text(f"{before}{new}{after}", encoding="utf-8")


def _entry(folder: Path, number: int) -> Path:
    (entry,) = (folder / "content" / "firings").glob(f"*-fire-{number}/entry.md")
    return entry


def _plain(archive: Archive) -> None:
    """Time plain `mkdocs build` over the very pages that the build wrote."""
    config = archive.folder / ".ashbook" / "mkdocs.yml"
    out = archive.folder / "plain"
    archive.time(PLAIN, "-m", "mkdocs", "build", "--quiet", "--config-file", str(config), "--site-dir", str(out))


def _hugo(archive: Archive) -> None:
    """Time hugo over the same pages, where it is installed."""
    if shutil.which("hugo") is None:
        return
    site = archive.folder / "hugo"
    write_hugo_site(archive.folder / ".ashbook" / "docs", site)
    archive.runs.setdefault(HUGO, []).append(run(["hugo", "--quiet"], site))
    archive.put_aside("hugo")


def tell(archive: Archive) -> None:
    """Print what an archive cost."""
    plain, plain_cpu = archive.median(PLAIN), archive.median(PLAIN, lambda one: one.processor_s)
    print(f"\n### {archive.count} firings\n")
    print("| | seconds | of plain mkdocs | processor seconds | of plain mkdocs | memory MiB | target |")
    print("|---|--:|--:|--:|--:|--:|---|")
    for what in archive.runs:
        seconds, used = archive.median(what), archive.median(what, lambda one: one.processor_s)
        memory = max(one.memory_mib for one in archive.runs[what])
        shares = f"{seconds / plain:.2f} | {used:.2f} | {used / plain_cpu:.2f}"
        print(
            f"| {what} | {seconds:.2f} | {shares} | {memory:.0f} | {_target(archive, what, seconds / plain, memory)} |"
        )
    seen, used = (statistics.median(found) for found in zip(*archive.seen, strict=True))
    target = f" (under {SEEN_S:g} s: {_verdict(seen < SEEN_S)})" if archive.count == 1000 else ""
    print(f"\nPreview, saved to seen: {seen:.2f} s, {used:.2f} s of the processor{target}")
    for what in (COLD, *EDITS):
        print(f"\nStages, seconds, {what}: {_stages(archive, what)}")
    sizes = sorted(
        len(gzip.compress(path.read_bytes(), 6)) / 1000 for path in (archive.folder / "site/firings").glob("2*.html")
    )
    print(f"An entry's page, compressed: median {statistics.median(sizes):.1f} kB, largest {sizes[-1]:.1f} kB")
    if shutil.which("hugo") is None:
        print("hugo is not installed and was left out.")


def _target(archive: Archive, what: str, share: float, memory: float) -> str:
    """Say what is asked of an archive of this size, and whether it is met."""
    if archive.count == 1000 and what in SHARES:
        return f"at most {SHARES[what]:g}: {_verdict(share <= SHARES[what])}"
    if archive.count == 3000 and what in EDITS and HUGO in archive.runs:
        return f"less than hugo: {_verdict(archive.median(what) < archive.median(HUGO))}"
    if archive.count == 10_000 and what == COLD:
        return f"under {MEMORY_MIB} MiB: {_verdict(memory < MEMORY_MIB)}"
    return ""


def _verdict(met: bool) -> str:
    return "met" if met else "not met"


def _stages(archive: Archive, what: str) -> str:
    found = [json.loads(one.said) for one in archive.runs[what]]
    return ", ".join(f"{stage} {statistics.median(one.get(stage, 0.0) for one in found):.2f}" for stage in found[0])


def main(counts: list[int], rounds: int) -> None:
    """Measure archives of each size and print what they cost, and how the cost grows."""
    costs: dict[int, float] = {}
    for count in counts:
        with tempfile.TemporaryDirectory() as folder:
            archive = Archive(Path(folder) / "archive", count)
            measure(archive, rounds)
            tell(archive)
            costs[count] = archive.median("cold build", lambda one: one.processor_s) / count
    first, last = counts[0], counts[-1]
    if first != last:
        growth = costs[last] / costs[first]
        target = f" (at most {GROWTH:g}: {_verdict(growth <= GROWTH)})" if first >= 1000 else ""
        print(f"\nA firing of {last} costs {growth:.2f} times what one of {first} costs, of the processor{target}.")


def _parsed() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("counts", nargs="*", type=int, default=list(COUNTS), metavar="COUNT", help="numbers of firings")
    parser.add_argument("--rounds", type=int, default=3, metavar="N", help="how often each is measured (default: 3)")
    return parser.parse_args()


if __name__ == "__main__":
    given = _parsed()
    main(given.counts, given.rounds)
