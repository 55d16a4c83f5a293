"""The long form of hostile files: bombs, logs and folders beyond all measure, names in every script and normal form."""

from __future__ import annotations

import resource
import sys
import time
import unicodedata
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Literal

from builder.base.problem import Problem
from builder.checks.check import check_all_addresses
from builder.entries.find import EntryFile, entry_at, suggest_slug
from builder.examine import examine
from builder.intake.unpacking import unpack
from builder.publish.errors import PictureError
from builder.publish.pictures import look_at, remake
from tests.checks.examples import example_settings
from tests.trust.bombs import ZIPS, pictures, write_zip_bomb
from tests.trust.judging import Judged, judge_entry, judge_log, make_folder
from tests.trust.row import Row

MOST_SECONDS = 10.0
"""Most of the processor's seconds for one hostile file; the largest is read a hundred megabytes long."""
MOST_MEMORY_MB = 400
"""Most by which the memory of the process may grow over all of them."""
FORMS: tuple[Literal["NFC", "NFD", "NFKC", "NFKD"], ...] = ("NFC", "NFD", "NFKC", "NFKD")
HEAD = "title: A\ndate: 2026-05-02\npotter: wren\nmethod: open-fire\n"


def files_tried(seconds: float, folder: Path) -> Row:
    """Try every one of them; it takes as long as it takes."""
    before, slowest, count, faults = _memory_mb(), 0.0, 0, []
    for number, (what, try_it) in enumerate(_tries()):
        place = folder / str(number)
        place.mkdir()
        began = time.process_time()
        try:
            fault = try_it(place)
        except Exception as error:  # whatever it is, it is what we look for
            fault = f"{type(error).__name__}: {error}"
        took = time.process_time() - began
        slowest, count = max(slowest, took), count + 1
        faults += [f"{what}: {fault}"] if fault else []
        faults += [f"{what} took {took:.1f} s"] if took > MOST_SECONDS else []
    grown = _memory_mb() - before
    faults += [f"memory grew by {grown:.0f} MB"] if grown > MOST_MEMORY_MB else []
    good = f"each refused with words, or read; the slowest took {slowest:.1f} s, memory grew by {grown:.0f} MB"
    what = "hostile files: bombs, a log of 100 MB, 10,000 photos, names in every script"
    return Row(what, count, tuple(faults), good)


def _tries() -> Iterator[tuple[str, Callable[[Path], str]]]:
    """Yield each try with a name; it returns what is wrong, or nothing."""
    for name, raw in pictures():
        yield name, lambda place, name=name, raw=raw: _picture(place / name, raw)  # type: ignore[misc]
    for kind in ZIPS:
        yield kind, lambda place, kind=kind: _zip(place, kind)  # type: ignore[misc]
    yield "a log of 100 MB", _long_log
    yield "10,000 photos", _many_photos
    yield "two addresses that differ by case", _same_address
    for name in names():
        yield f"name {name!a}", lambda place, name=name: _name(place, name)  # type: ignore[misc]


@cache
def names() -> tuple[str, ...]:
    """Return words in every script that Unicode names, in every normal form that writes them in another way."""
    by_script: dict[str, list[str]] = {}
    for number in range(0xA0, sys.maxunicode + 1):
        letter = chr(number)
        if unicodedata.category(letter)[0] in "LMN" and (called := unicodedata.name(letter, "")):
            by_script.setdefault(called.split()[0], []).append(letter)
    words = ["".join(letters[:: max(1, len(letters) // 6)][:6]) for letters in by_script.values()]
    forms = dict.fromkeys(unicodedata.normalize(form, word) for word in words for form in FORMS)
    return tuple(name for name in forms if not name.isascii())


def _picture(path: Path, raw: bytes) -> str:
    path.write_bytes(raw)
    said = look_at(path)
    try:
        made = remake(path, "photo")
    except PictureError as error:
        return "" if str(error) else "refused without a word"
    return f"made into {len(made)} pictures though {said!r}" if said else ""


def _zip(place: Path, kind: str) -> str:
    write_zip_bomb(place / "bomb.zip", kind)
    (place / "aside").mkdir()
    folder, problems = unpack(place / "bomb.zip", place / "aside")
    written = sum(path.stat().st_size for path in (place / "aside").rglob("*") if path.is_file())
    if folder is not None or not problems:
        return "taken in"
    return "" if written < 50_000_000 else f"{written} bytes were written"


def _long_log(place: Path) -> str:
    judged = judge_log(b"0:00,14.5,1\n" * 9_000_000, make_folder(place), example_settings())
    return "" if "file-too-large" in {one.code for one in judged.problems} else "read"


def judge_photos(folder: Path, listed: int) -> Judged:
    """Judge an entry beside which ten thousand photos lie, and which lists so many of them."""
    for number in range(10_000):
        (folder / f"photo-{number}.jpg").touch()
    photos = "".join(f"  - {{file: photo-{number}.jpg, alt: A}}\n" for number in range(listed))
    raw = f"---\n{HEAD}pieces: [{{name: a, survival: sound}}]\nphotos:\n{photos}---\n"
    return judge_entry(raw.encode(), folder, example_settings())


def _many_photos(place: Path) -> str:
    judged = judge_photos(make_folder(place), 10_000)
    return "taken" if judged.published else ""


def _same_address(place: Path) -> str:
    def entry(slug: str) -> EntryFile:
        return EntryFile(slug, place / slug, place / slug / "entry.md", f"content/firings/{slug}/entry.md")

    found = check_all_addresses([entry("2026-05-02-jar"), entry("2026-05-02-JAR")])
    return "" if [one.code for one in found] == ["address-twice"] else "not told"


def _name(place: Path, name: str) -> str:
    """Let a name stand for a firing's folder, a photo and a log."""
    folder = place / f"2026-05-02-{name}"
    folder.mkdir()
    found = entry_at(folder, place)
    if not isinstance(found, Problem) or suggest_slug(folder.name) not in found.help:
        return "taken for a firing's folder, or no plain name offered"
    inside = make_folder(place)
    (inside / "drawn.jpg").rename(inside / f"{name}.jpg")
    text = f'---\n{HEAD}pieces: [{{name: a, survival: sound}}]\nphotos: [{{file: "{name}.jpg", alt: A}}]\n---\n'
    (inside / "entry.md").write_text(text, encoding="utf-8")
    examined = examine(EntryFile(inside.name, inside, inside / "entry.md", "entry.md"), example_settings())
    wordless = [one for one in examined.problems if not (one.message.strip() and one.help.strip())]
    return f"{wordless}" if wordless else ""


def _memory_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
