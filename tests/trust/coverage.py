"""`python -m tests.trust.coverage [minutes]`: the parsers under a fuzzer that is guided by coverage, where it installs.

atheris is no dependency: `pip install atheris` where there is a wheel for it. What it finds belongs into `corpus/`.
"""

from __future__ import annotations

import importlib
import sys
import tempfile
from pathlib import Path

CORPUS = Path(__file__).parent / "corpus"


def main(words: list[str]) -> int:
    """Try for so many minutes; a fault ends it with its input."""
    try:
        atheris = importlib.import_module("atheris")
    except ImportError:
        print("atheris is not installed here; `python -m tests.trust` tries without it.", file=sys.stderr)
        return 2
    with atheris.instrument_imports(include=["builder", "frontmatter"]):
        judging = importlib.import_module("tests.trust.judging")
        settings = importlib.import_module("tests.checks.examples").example_settings()
    folder = judging.make_folder(Path(tempfile.mkdtemp()))
    kinds = ("temperature", "time", "length", "mass", "share")

    def one(data: bytes) -> None:
        way, rest = data[:1], data[1:]
        if way < b"\x60":
            judging.judge_entry(b"---\n" + rest + b"\n---\n", folder, settings)
        elif way < b"\xa0":
            judging.judge_log(rest, folder, settings)
        else:
            judging.judge_quantity(rest.decode("utf-8", "replace")[:200], kinds[way[0] % len(kinds)])

    seconds = int(float(words[0]) * 60) if words else 300
    atheris.Setup([sys.argv[0], f"-max_total_time={seconds}", "-max_len=4096", str(_seeds())], one)
    atheris.Fuzz()
    return 0


def _seeds() -> Path:
    """Write the small corpus down as the fuzzer takes it: a byte for the way, then the input."""
    folder = Path(tempfile.mkdtemp())
    for path in sorted(CORPUS.iterdir()):
        raw = path.read_bytes()
        begun = b"\x00" + raw.removeprefix(b"---\n") if path.suffix == ".md" else b"\x60" + raw
        (folder / path.name).write_bytes(begun)
    return folder


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
