"""The door: `python -m builder` is the same as `ashbook`."""

import sys

from builder.commands.cli import main

if __name__ == "__main__":
    sys.exit(main())
