"""The door: `python -m builder` is the same as `ashbook`."""

import os
import sys
from typing import NoReturn

from builder.commands.cli import PROBLEMS, main
from builder.workers import seldom_collected


def run() -> NoReturn:
    """Run the command line, and end this process."""
    with seldom_collected():
        leave(main())


def leave(code: int) -> NoReturn:
    """End this process at once, once all is said: Python's own end lets go of an archive value by value."""
    for stream in (sys.stdout, sys.stderr):
        if not stream.closed:
            try:
                stream.flush()
            except OSError:  # nobody listens any more, or there is no room
                code = code or PROBLEMS
    os._exit(code)


if __name__ == "__main__":
    run()
