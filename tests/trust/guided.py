"""What the fuzzer that is guided by coverage hands over: a byte for the way, then the input; and what it has kept."""

from __future__ import annotations

import base64
from pathlib import Path

from builder.settings import Settings
from tests.checks.examples import BAD, GOOD, cases
from tests.trust.judging import judge_entry, judge_log, judge_quantity

CORPUS = Path(__file__).parent / "corpus"
KEPT = CORPUS / "guided.txt"
"""Inputs that together reach most of the parsers: base64, one a line."""
ENTRY, LOG, QUANTITY = b"\x00", b"\x60", b"\xa0"
"""First bytes from which on an input goes each way."""
_KINDS = ("temperature", "temperature_step", "rate", "time", "length", "mass", "share", "speed", "voltage")
_KEPT_BY = ("", "time: elapsed\n  ", "time: clock\n  ")


def judge_guided(data: bytes, folder: Path, settings: Settings) -> float:
    """Judge one input and return the seconds of the processor that it took."""
    way, rest = data[:1], data[1:]
    if way < LOG:
        return judge_entry(b"---\n" + rest + b"\n---\n", folder, settings).seconds
    if way < QUANTITY:
        return judge_log(rest, folder, settings, _KEPT_BY[way[0] % len(_KEPT_BY)]).seconds
    judge_quantity(rest.decode("utf-8", "replace")[:200], _KINDS[way[0] % len(_KINDS)])
    return 0.0


def kept_inputs() -> list[bytes]:
    """Return the inputs that were kept."""
    return [base64.b64decode(line) for line in KEPT.read_text(encoding="ascii").split()]


def keep_inputs(inputs: list[bytes]) -> None:
    """Keep these inputs instead, in an order of their own."""
    lines = sorted({base64.b64encode(data).decode("ascii") for data in inputs}, key=lambda line: (len(line), line))
    KEPT.write_text("\n".join([*lines, ""]), encoding="ascii")


def first_inputs() -> list[bytes]:
    """Return what the fuzzer begins with: the kept inputs, the small corpus, the example entries, some quantities."""
    found = kept_inputs() if KEPT.exists() else []
    for path in sorted(CORPUS.iterdir()):
        if path.suffix in (".md", ".csv"):
            found.append(_entry(path) if path.suffix == ".md" else LOG + path.read_bytes())
    examples = [folder / "entry.md" for root in (GOOD, BAD) for folder in cases(root)]
    found += [_entry(path) for path in examples if path.is_file()]
    words = ("785 °C", "1,450 °F", "1/4 in", "2 lb 3 oz", "1 h 20 min", "about 14 kg", "3 to 4 mm", "55 %", "±2 °C")
    return [*found, *(bytes([QUANTITY[0] + number]) + text.encode() for number, text in enumerate(words))]


def _entry(path: Path) -> bytes:
    return ENTRY + path.read_bytes().removeprefix(b"---\n")
