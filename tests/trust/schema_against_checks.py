"""The published JSON Schema and our own checks, given the same spoilt entries: where they differ, and why they may."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Any

import jsonschema
import yaml

from builder.base.problem import Severity
from builder.checks.check import check_entry
from builder.entries.find import EntryFile
from builder.entries.schema import entry_schema
from builder.settings import Settings
from tests.trust.mutated import Tree, sound_tree, spoil, write_tree

READ_OTHERWISE = {
    "key-twice": "an ordinary reader keeps the last of two equal keys and says nothing",
    "yaml-syntax": "we read text only and refuse what cannot be printed",
    "yaml-anchor": "an ordinary reader follows anchors, ours refuses them",
    "yaml-tag": "an ordinary reader may know a tag, ours refuses all",
    "yaml-key": "an ordinary reader may take a list for a key",
    "yaml-too-large": "limits of size and depth are ours",
    "rows-block": "an ordinary reader cannot tell how a text was written",
    "front-matter-dash": "lines of dashes are the file's business, not the front matter's",
    "front-matter-open": "the same",
    "front-matter-missing": "the same",
    "front-matter-empty": "the same",
}
"""Codes of entries that an ordinary reader of YAML reads otherwise than we do; there the two cannot be compared."""

BEYOND_A_SCHEMA = {
    "quantity-none": "a schema sees that there is a figure, not that the value begins with it",
    "quantity-unit": "units take reckoning",
    "quantity-unit-unknown": "units take reckoning",
    "quantity-kind": "units take reckoning",
    "quantity-extra": "the grammar of a quantity is no pattern",
    "quantity-ambiguous": "the grammar of a quantity is no pattern",
    "quantity-clock": "the grammar of a quantity is no pattern",
    "quantity-digits": "a schema's patterns know all digits",
    "quantity-too-large": "a schema tells no length of a number",
    "impossible": "limits hang on the unit",
    "count-form": "a figure of any length is a whole number to a schema",
    "clock-form": "YAML 1.1 hands clock times over as numbers, which the schema must let pass",
    "date-calendar": "which days there are takes a calendar",
    "date-folder": "hangs on the folder's name",
    "licence": "likeness to a known licence takes looking",
    "munsell": "limits of the scales",
    "not-recorded": "words for nothing are many",
    "too-long": "lengths differ by field and count after tidying",
    "too-many": "the group may write as many as it likes elsewhere",
    "hidden-character": "characters without a width",
    "curly-quotes": "letters to YAML",
    "place-exact": "the group's own rule",
    "file-missing": "takes looking",
    "file-name": "names that some systems refuse",
    "file-kind": "kinds that differ by field",
    "file-outside": "an address on the web may look like a name",
    "picture": "takes looking",
    "time-kind": "one field against another",
    "ware-probe": "one field against another",
    "readings-missing": "one field against another",
    "rows-and-file": "one field against another",
    "probe-twice": "one field against another",
    "probe-type": "one field against another",
    "probe-column": "one field against another",
    "probe-contradiction": "one field against another",
    "calibration-points": "one field against another",
    "weighed-order": "one field against another",
    "marks-order": "one field against another",
    "file-twice": "one field against another",
}
"""Codes that a schema cannot judge, and why."""


@dataclass(slots=True)
class Compared:
    """What came of many entries."""

    counts: Counter[str] = field(default_factory=Counter)
    """How many were accepted by both, refused by both, read otherwise, beyond a schema."""
    unexplained: list[str] = field(default_factory=list)
    """Differences that no table above explains."""


def ordinary(front: str) -> Any:
    """Return front matter as an ordinary reader of YAML hands it over, dates as text; raises what it raises."""
    return json.loads(json.dumps(yaml.safe_load(front), default=str))


def compare(count: int, folder: Path, settings: Settings, first: int = 0) -> Compared:
    """Give the same spoilt entries to the schema and to the checks."""
    validator = jsonschema.Draft202012Validator(entry_schema(settings))
    compared = Compared()
    for number in range(first, first + count):
        rng = Random(number)
        tree: Tree = sound_tree(rng)
        for _ in range(rng.randint(0, 3)):
            tree = spoil(rng, tree)
        _compare_one(write_tree(rng, tree), validator, folder, settings, compared)
    return compared


def _compare_one(front: str, validator: Any, folder: Path, settings: Settings, compared: Compared) -> None:
    try:
        told = ordinary(front)
        raw = f"---{front}\n---\n".encode()
    except (yaml.YAMLError, ValueError, TypeError, RecursionError):
        compared.counts["read otherwise"] += 1
        return
    (folder / "entry.md").write_bytes(raw)
    entry = EntryFile(folder.name, folder, folder / "entry.md", f"{folder.name}/entry.md")
    ours = {problem.code for problem in check_entry(entry, settings).problems if problem.severity is Severity.ERROR}
    theirs = list(validator.iter_errors(told))
    if ours & READ_OTHERWISE.keys():
        compared.counts["read otherwise"] += 1
    elif bool(ours) == bool(theirs):
        compared.counts["refused by both" if ours else "accepted by both"] += 1
    elif ours and ours <= BEYOND_A_SCHEMA.keys():
        compared.counts["beyond a schema"] += 1
    else:
        compared.unexplained.append(f"ours {sorted(ours)}, theirs {[error.message[:80] for error in theirs]}: {front}")
