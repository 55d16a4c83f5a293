"""Data written as a script: a browser reads that from a folder as well as from a host."""

from __future__ import annotations

import json


def script_json(value: object) -> str:
    r"""Write JSON that stays data wherever a script stands: no end of a script's element, no odd line ends.

    >>> print(script_json(["</script>", 1]))
    ["\u003c/script>",1]
    """
    written = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return written.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
