"""`python -m tests`: everything that must hold, in one command. Stops with the first that does not."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

PROJECT = Path(__file__).parent.parent
CHECKS = (
    ("ruff", "check", "."),
    ("ruff", "format", "--check", "."),
    ("mypy",),
    ("pytest", "-n", "auto", "--dist", "worksteal"),
)


def main() -> int:
    """Run each check in the project's folder; further words go to pytest."""
    for check in CHECKS:
        words = [*check, *sys.argv[1:]] if check[0] == "pytest" else list(check)
        print(f"\n== {' '.join(words)}", flush=True)
        done = subprocess.run([sys.executable, "-m", *words], cwd=PROJECT, check=False)
        if done.returncode:
            return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main())
