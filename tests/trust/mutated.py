"""Entries built from the one definition of the fields, then spoilt: values, keys, nesting, line ends, bytes."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

from builder.entries.fields import FIELDS, Field
from tests.trust.attacks import ATTACKS
from tests.trust.odd_words import ODD_KEYS, ODD_LOG_LINES, ODD_VALUES

Tree = Any
"""A value (str), a list of trees, or the pairs of a group (key, tree): pairs, so that a key can stand twice."""


def sound_tree(rng: Random, fields: tuple[Field, ...] = FIELDS, depth: int = 0) -> list[tuple[str, Tree]]:
    """Build the pairs of one group from the fields' own examples, some left out."""
    pairs: list[tuple[str, Tree]] = []
    for field in fields:
        if not field.required and rng.random() < (0.5 if depth == 0 else 0.4):
            continue
        pairs.append((field.name, _sound_value(rng, field, depth)))
    return pairs


def _sound_value(rng: Random, field: Field, depth: int) -> Tree:
    if field.name == "readings":
        return _sound_readings(rng)
    if field.kind == "group":
        return sound_tree(rng, field.fields, depth + 1)
    if field.kind == "list":
        count = 1 if field.name == "photos" else rng.randint(1, 3)
        return [sound_tree(rng, field.fields, depth + 1) for _ in range(count)]
    if field.words:
        return rng.choice(field.words)
    if field.example.startswith("["):
        return [word.strip() for word in field.example.strip("[]").split(",")]
    return field.example


_PROBES = (
    ("instrument", "spot thermometer", "emissivity_set", "0.95", "emissivity", "0.85 to 0.95", "background", "20 °C"),
    ("instrument", "thermocouple", "type", "K", "tolerance", "IEC 2", "resolution", "1 °C", "limit", "1100 °C"),
    ("instrument", "other", "accuracy", "3 °C", "position", "against the jar's shoulder"),
)
"""What belongs together under one probe."""


def _sound_readings(rng: Random) -> Tree:
    told = rng.choice(_PROBES)
    probe: Tree = [("name", "wall"), *zip(told[::2], told[1::2], strict=True)]
    if rng.random() < 0.3:
        probe.append(
            ("calibrated", [[("shown", "1 °C"), ("known", "0 °C")], [("shown", "100 °C"), ("known", "99 °C")]])
        )
    if rng.random() < 0.4:
        return [("time", "elapsed"), ("file", "log.csv"), ("probes", [[*probe, ("column", "2"), ("unit", "°C")]])]
    rows = "0:00 14 °C lit\n2:00 210 °C\n4:30 565 °C flames\n9:10 812 °C\n12:00 640 °C"
    return [("time", "elapsed"), ("probes", [probe]), ("ware_probe", "wall"), ("rows", rows)]


def spoil(rng: Random, tree: Tree) -> Tree:
    """Change one thing somewhere in a tree."""
    if isinstance(tree, list) and tree and rng.random() < 0.92:
        at = rng.randrange(len(tree))
        items: list[object] = list(tree)
        inside = items[at]
        if isinstance(inside, tuple):
            items[at] = _spoilt_pair(rng, inside[0], inside[1])
            if rng.random() < 0.08:
                items.insert(rng.randrange(len(items) + 1), inside)
            if rng.random() < 0.05:
                del items[at]
        else:
            items[at] = spoil(rng, inside)
        return items
    return _spoilt_value(rng, tree)


def _spoilt_pair(rng: Random, key: str, value: Tree) -> tuple[str, Tree]:
    if rng.random() < 0.12:
        return (rng.choice(ODD_KEYS) if rng.random() < 0.5 else spoil_text(rng, key)), value
    return key, spoil(rng, value)


def _spoilt_value(rng: Random, value: Tree) -> Tree:
    ways: tuple[Callable[[], Tree], ...] = (
        lambda: rng.choice(ODD_VALUES),
        lambda: rng.choice(ODD_VALUES),
        lambda: rng.choice(ATTACKS).text,
        lambda: spoil_text(rng, value) if isinstance(value, str) else "words",
        lambda: [value],
        lambda: [("name", value)],
        lambda: [value] * rng.choice((2, 30, 400)) if isinstance(value, str) else [],
        lambda: _nested(value, rng.choice((2, 6, 9, 40))),
    )
    return rng.choice(ways)()


def _nested(value: Tree, depth: int) -> Tree:
    for _ in range(depth):
        value = [value]
    return value


def spoil_text(rng: Random, text: str) -> str:
    """Take away, put in, double or swap a few characters."""
    for _ in range(rng.randint(1, 3)):
        at = rng.randrange(len(text) + 1)
        odd = chr(rng.choice((rng.randrange(32, 127), rng.randrange(0xA0, 0x2FFF), rng.randrange(0, 32), 0x1F525)))
        text = rng.choice(
            (text[:at] + text[at + 1 :], text[:at] + odd + text[at:], text[:at] + text, text[at:] + text[:at])
        )
        text = text[:6000]
    return text


def write_tree(rng: Random, tree: Tree, indent: int = 0) -> str:
    """Write a tree as YAML, in blocks or in braces, its values in quotes, bare or as a block."""
    pad = " " * indent
    if isinstance(tree, str):
        return _written(rng, tree, indent)
    if not tree:
        return rng.choice(("[]", "{}", ""))
    if indent > 2 and rng.random() < 0.4 and not _has_rows(tree):
        return _flow(tree)
    lines = []
    for item in tree:
        if isinstance(item, tuple):
            lines.append(f"{pad}{item[0]}: {write_tree(rng, item[1], indent + 2)}")
        else:
            lines.append(f"{pad}- {write_tree(rng, item, indent + 2).lstrip()}")
    return "\n" + "\n".join(lines)


def _has_rows(tree: Tree) -> bool:
    return "\n" in tree if isinstance(tree, str) else any(_has_rows(i[1] if isinstance(i, tuple) else i) for i in tree)


def _flow(tree: Tree) -> str:
    if isinstance(tree, str):
        return _double_quoted(tree)
    if tree and isinstance(tree[0], tuple):
        return "{" + ", ".join(f"{pair[0]}: {_flow(pair[1])}" for pair in tree if isinstance(pair, tuple)) + "}"
    return "[" + ", ".join(_flow(item) for item in tree if not isinstance(item, tuple)) + "]"


def _written(rng: Random, text: str, indent: int) -> str:
    if "\n" in text and rng.random() < 0.9:
        pad = "\n" + " " * (indent + 2)
        return "|" + pad + text.replace("\n", pad)
    return rng.choice((text, text, _double_quoted(text), "'" + text.replace("'", "''") + "'"))


def _double_quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def entry_bytes(rng: Random) -> bytes:
    """Write an entry's whole file, spoilt in up to four ways."""
    tree: Tree = sound_tree(rng)
    for _ in range(rng.randint(0, 3)):
        tree = spoil(rng, tree)
    text = f"---{write_tree(rng, tree)}\n---\n{rng.choice(('What I tried.', '', rng.choice(ATTACKS).text))}\n"
    for way in (_spoilt_fences, _spoilt_indent, _spoilt_ends):
        if rng.random() < 0.03:
            text = way(rng, text)
    return _encoded(rng, text)


def _spoilt_fences(rng: Random, text: str) -> str:
    return text.replace(
        "---", rng.choice(("—", "--", "----", "–-", "--- ", "- - -", "\t---", "...", "", "===")), rng.randint(1, 2)
    )


def _spoilt_indent(rng: Random, text: str) -> str:
    lines = text.split("\n")
    at = rng.randrange(len(lines))
    lines[at] = rng.choice((" ", "\t", "  ", "", "\u00a0")) + lines[at].lstrip(rng.choice((" ", "")))
    return "\n".join(lines)


def _spoilt_ends(rng: Random, text: str) -> str:
    return text.replace("\n", rng.choice(("\r\n", "\r", "\n\n", "\n\r", "\u2028", "\x85", "\x0b\n")))


def _encoded(rng: Random, text: str) -> bytes:
    plain = text.encode("utf-8", "surrogatepass")
    if rng.random() < 0.96:
        return plain
    ways: tuple[Callable[[], bytes], ...] = (
        lambda: b"\xef\xbb\xbf" + plain,
        lambda: text.encode("utf-16", "surrogatepass"),
        lambda: text.encode("utf-32", "surrogatepass"),
        lambda: text.encode("latin-1", "replace"),
        lambda: text.encode("cp1252", "replace"),
        lambda: plain[: rng.randrange(len(plain) + 1)],
    )
    return rng.choice(ways)()


def spoil_bytes(rng: Random, raw: bytes) -> bytes:
    """Turn, take away, put in and double bytes of a file."""
    spoilt = bytearray(raw)
    for _ in range(rng.randint(1, 8)):
        at = rng.randrange(len(spoilt) + 1)
        to = min(len(spoilt), at + rng.choice((1, 1, 2, 8, 64)))
        piece = bytes(rng.randrange(256) for _ in range(rng.choice((0, 1, 1, 4))))
        spoilt[at:to] = rng.choice((piece, bytes(spoilt[at:to]) * 2, b"", piece + bytes(spoilt[at:to])))
    return bytes(spoilt)


def readings_bytes(rng: Random) -> bytes:
    """Write a readings file: some sound rows, some odd lines, one or two ways of ending and encoding them."""
    mark = rng.choice((",", ";", "\t", " "))
    point = rng.choice((".", ".", ","))
    lines = [f"time{mark}wall{mark}rim"] if rng.random() < 0.7 else []
    for minute in range(rng.randrange(40)):
        wall = f"{14 + 20 * minute}.5".replace(".", point)
        lines.append(f"{minute}:00{mark}{wall}{mark}{rng.choice(('20', '', 'nan', '-', 'OL'))}")
    for _ in range(rng.randint(0, 4)):
        odd = rng.choice(ODD_LOG_LINES) if rng.random() < 0.8 else spoil_text(rng, rng.choice(ODD_LOG_LINES))
        lines.insert(rng.randrange(len(lines) + 1), odd)
    raw = _encoded(rng, rng.choice(("\n", "\n", "\r\n", "\r")).join(lines))
    return spoil_bytes(rng, raw) if rng.random() < 0.3 and raw else raw
