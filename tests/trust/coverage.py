"""`python -m tests.trust.coverage [minutes] [keep]`: the parsers under a fuzzer guided by coverage, where it installs.

atheris is no dependency: `pip install atheris` where there is a wheel for it. It ends with the first fault and leaves
its input in the folder where it was called; such an input belongs into `corpus/`, beside the repair. With `keep`, a
small choice of inputs that together reach nearly as much as all of them is written to `corpus/guided.txt`.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from hashlib import sha256
from pathlib import Path

from builder.base.units import KINDS
from builder.entries.fields import walk
from tests.trust.coverage_run import MOST_BYTES
from tests.trust.guided import first_inputs, keep_inputs

MOST_KEPT = 250


def main(words: list[str]) -> int:
    """Try for so many minutes; a fault ends it with its input."""
    keep, numbers = "keep" in words, [word for word in words if word != "keep"]
    seconds = int(float(numbers[0]) * 60) if numbers else 300
    with tempfile.TemporaryDirectory() as made:
        found, chosen = Path(made) / "found", Path(made) / "chosen"
        found.mkdir()
        chosen.mkdir()
        for data in first_inputs():
            (found / sha256(data).hexdigest()[:16]).write_bytes(data[:MOST_BYTES])
        (Path(made) / "words").write_text(_dictionary(), encoding="utf-8")
        code = _run(f"-max_total_time={seconds}", f"-dict={made}/words", "-print_final_stats=1", str(found))
        if keep and not code:
            code = _run("-merge=1", str(chosen), str(found))
            by_size = sorted(chosen.iterdir(), key=lambda path: (path.stat().st_size, path.name))
            keep_inputs([path.read_bytes() for path in by_size[:: 1 + len(by_size) // MOST_KEPT]])
    return code


def _run(*options: str) -> int:
    command = [sys.executable, "-m", "tests.trust.coverage_run", *options]
    return subprocess.run(command, check=False).returncode


def _dictionary() -> str:
    """Write the words of an entry for the fuzzer: keys, lists and units."""
    words = {field.name for _, field in walk()} | {word for _, field in walk() for word in field.words}
    words |= set(KINDS) | {"°C", "°F", " to ", "about ", "---\n", "|\n", "elapsed", "clock"}
    return "".join(f'"{_escaped(word)}"\n' for word in sorted(words))


def _escaped(word: str) -> str:
    return "".join(chr(byte) if 32 <= byte < 127 and byte not in b'"\\' else f"\\x{byte:02x}" for byte in word.encode())


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
