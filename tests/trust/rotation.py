"""Which attack goes where in a small archive: each in every kind of place at each run, in each single place over runs.

The places of a kind stand in a row, the attacks in a ring, which each run turns by one. So a run opens each attack in
each kind of place, and after as many runs as there are attacks each has stood in every single place that takes it.
"""

from __future__ import annotations

import os
import time
from collections import Counter
from pathlib import Path

from builder.build import Options, build
from tests.trust.attacks import ATTACKS
from tests.trust.hostile_archive import Shape, Words, attacking, attacks_for, fits, hostile_files, write_hostile_archive

SMALL = Shape(entries=16, pieces=5, photos=6, potters=34, refused=44, strays=len(attacks_for("stray")), words=180)
"""As small as an archive can be that has room for every attack in each kind of place."""

Slot = tuple[str, int]
"""A place, and the number of the case in it."""


def kind_of(path: str) -> str:
    """Name the kind of place that a path belongs to."""
    head = path.partition(".")[0]
    if head in ("settings", "pieces", "photos", "refused", "stray", "photo"):
        return head
    if head in ("event", "log", "readings"):
        return "readings"
    return "prose" if head in ("story", "prose") else "fields"


def round_of_today() -> int:
    """Return which run this is: the day's number, so that it is the same everywhere; ASHBOOK_ROUND names another."""
    return int(os.environ.get("ASHBOOK_ROUND") or time.time() // 86_400)


def slots_of(shape: Shape) -> dict[str, list[Slot]]:
    """Return the places of an archive by kind, in the order in which they are written."""
    found: dict[str, list[Slot]] = {}

    def note(path: str, number: int) -> str:
        found.setdefault(kind_of(path), []).append((path, number))
        return f"x{number}"

    for _ in hostile_files(shape, note):
        pass
    return found


def assigned(slots: list[Slot], turned: int) -> dict[Slot, tuple[str, ...]]:
    """Give each place its words: the attack that the ring holds against it. Prose takes a share of all.

    What a place does not take goes to one whose own attack stands elsewhere too, so that none is left out.
    """
    ring = [ATTACKS[(at + turned) % len(ATTACKS)].text for at in range(len(ATTACKS))]
    if kind_of(slots[0][0]) == "prose":
        taken = [text for text in ring if fits("story", text)]
        return {slot: tuple(taken[at :: len(slots)]) for at, slot in enumerate(slots)}
    against = {slot: ring[at % len(ring)] for at, slot in enumerate(slots)}
    given = {slot: text for slot, text in against.items() if fits(slot[0], text)}
    often = Counter(given.values())
    for text in ring:
        if not often[text]:
            free = (slot for slot in slots if often[given.get(slot, "")] != 1 and fits(slot[0], text))
            slot = next(free, None)
            if slot is not None:
                often.subtract([given.get(slot, "")])
                given[slot], often[text] = text, 1
    return {slot: (given.get(slot) or attacking(*slot),) for slot in slots}


def turning(shape: Shape, turned: int) -> Words:
    """Return the words of one run."""
    given = {slot: texts for slots in slots_of(shape).values() for slot, texts in assigned(slots, turned).items()}
    return lambda path, number: "\n\n".join(given[path, number])


def built(folder: Path, shape: Shape, words: Words) -> Path:
    """Build the archive with these words, and return its site."""
    write_hostile_archive(folder, shape, words)
    done = build(Options(folder, folder / "site"))
    if done.published != shape.entries:
        raise AssertionError(f"{done.published} of {shape.entries} were published: {done.problems[:3]}")
    return folder / "site"
