"""What an archive made of several groups costs: `python -m tests.bench.sources 500 --groups 2 4` prints it.

Each group has as many firings as the benchmark's, with words of its own; all are built, then joined a few at a time.
"""

from __future__ import annotations

import argparse
import gzip
import sys
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from tests.bench.archive_maker import SETTINGS, make_archive
from tests.bench.running import Run, run

PARTS = {
    "published entries": "data/entries/**/*",
    "tables of the open data": "data/*.csv",
    "the firings' pages": "firings/*.html",
    "pages of the list": "firings/[ni]*.html",
    "columns of the list": "firings/list.js",
    "search index": "search/**/*",
    "all": "**/*",
}
"""Parts of a site by the files that they are."""


def main(words: list[str]) -> int:
    """Make groups, join them, print what it cost."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.sources")
    parser.add_argument("firings", type=int, nargs="?", default=500, help="firings of each group")
    parser.add_argument("--groups", type=int, nargs="+", default=[2, 4], help="how many groups are joined, each time")
    asked = parser.parse_args(words)
    with tempfile.TemporaryDirectory(prefix="ashbook-bench-sources-") as folder:
        for line in _measured(Path(folder), asked.firings, sorted(asked.groups)):
            print(line, flush=True)
    return 0


def _measured(root: Path, firings: int, sizes: list[int]) -> Iterator[str]:
    yield "| | firings | seconds | processor seconds | memory, MiB |\n|---|--:|--:|--:|--:|"
    for number in range(1, sizes[-1] + 1):
        make_archive(_group(root, number), firings, seed=number)
        settings = _group(root, number) / "site_config.yml"
        told = settings.read_text(encoding="utf-8").replace("Benchmark potters", f"Group {number}")
        settings.write_text(told, encoding="utf-8")
        yield _row(f"group {number} by itself, cold", firings, _build(_group(root, number)))
    for size in sizes:
        project = _join(root, size)
        yield _row(f"{size} groups joined, cold", size * firings, _build(project))
        yield _row("the same, nothing changed", size * firings, _build(project))
        _edit(_group(root, 1))
        yield _row("group 1 edits one firing and publishes", firings, _build(_group(root, 1)))
        yield _row("the joined archive after that", size * firings, _build(project))
        yield from _sizes(project / "site", _group(root, 1) / "site", size * firings, firings)


def _group(root: Path, number: int) -> Path:
    return root / f"group-{number}"


def _join(root: Path, size: int) -> Path:
    project = root / f"joined-{size}"
    project.mkdir()
    sources = "".join(f"  group-{number}: ../group-{number}/site\n" for number in range(1, size + 1))
    text = SETTINGS.replace("potters:\n%s\n", "").replace("Benchmark potters", "All groups")
    (project / "site_config.yml").write_text(f"{text}sources:\n{sources}", encoding="utf-8")
    return project


def _build(project: Path) -> Run:
    return run([sys.executable, "-m", "tests.bench.one_build", str(project)])


def _edit(project: Path) -> None:
    entry = next(iter(sorted((project / "content" / "firings").iterdir()))) / "entry.md"
    entry.write_text(entry.read_text(encoding="utf-8") + "\nOne sentence more.\n", encoding="utf-8")


def _row(name: str, firings: int, cost: Run) -> str:
    return f"| {name} | {firings:,} | {cost.seconds:.1f} | {cost.processor_s:.1f} | {cost.memory_mib:.0f} |"


def _sizes(joined: Path, own: Path, firings: int, of_one: int) -> Iterator[str]:
    yield f"\n| kB a firing, of {firings:,} | as it is | compressed |\n|---|--:|--:|"
    yield _size("published entries, of group 1", own.glob(PARTS["published entries"]), of_one)
    for name in list(PARTS)[1:]:
        yield _size(name, joined.glob(PARTS[name]), firings)
    yield f"files a firing: {sum(path.is_file() for path in joined.rglob('*')) / firings:.1f}\n"


def _size(name: str, paths: Iterable[Path], firings: int) -> str:
    contents = [path.read_bytes() for path in paths if path.is_file()]
    plain, small = (sum(map(len, found)) for found in (contents, map(gzip.compress, contents)))
    return f"| {name} | {plain / firings / 1000:.2f} | {small / firings / 1000:.2f} |"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
