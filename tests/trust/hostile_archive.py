"""An archive with words of somebody's choice in every place that takes any: settings, pages, entries, files, names."""

from __future__ import annotations

import io
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from PIL import Image, PngImagePlugin

from builder.checks.hidden import hidden_fault, hidden_in_story, tidy
from builder.checks.limits import longest_text
from builder.checks.places import read_place
from builder.entries.compose import quoted
from tests.trust.attacks import ATTACKS

Words = Callable[[str, int], str]
"""Given a place and the number of the case in it, the words that go there. Every pair is asked for once."""

_LOG = "a'b {{ x }} =1+1.csv"
_FIRINGS = "content/firings"
OF_THE_GROUP = ("name", "title", "about", "contact", "notice")
"""Settings of which an archive has one each."""
METHODS = 4


@dataclass(frozen=True, slots=True)
class Shape:
    """How much of everything the archive has."""

    entries: int
    pieces: int = 5
    photos: int = 2
    potters: int = 8
    refused: int = 4
    """Entries with errors: what is told of them stands on the About page."""
    strays: int = 20
    """Files and folders that are no firings, with names of somebody's choice."""
    words: int = 1
    """Words that the group adds to a list."""


def fits(path: str, text: str) -> bool:
    """Tell whether the check takes the words in a place, so that they reach the site at all."""
    if path.startswith("refused"):
        return bool(text)
    if path == "stray":
        return "/" not in text and "\0" not in text and text[:1] != "." and 0 < len(text.encode()) < 200
    if path in ("story", "prose"):
        return hidden_in_story(text) is None
    if hidden_fault(text) is not None or not tidy(text) or len(tidy(text)) > longest_text(path):
        return False
    return path != "place" or read_place(tidy(text), None) == tidy(text)


@cache
def attacks_for(path: str) -> tuple[str, ...]:
    """Return the attacks that a place takes."""
    return tuple(attack.text for attack in ATTACKS if fits(path, attack.text))


def attacking(path: str, number: int) -> str:
    """Return one attack for a place; consecutive numbers go through all of them."""
    found = attacks_for(path)
    return found[number % len(found)]


def tame(path: str, number: int) -> str:
    """Return harmless words in the same places."""
    if path in ("story", "prose"):
        return "Words.\n\n# A heading\n\n- a list"
    return f"words {path.replace('.', ' ')} {number}"


LONG = Shape(len(ATTACKS), 1, 1, len(ATTACKS), len(ATTACKS), len(attacks_for("stray")), len(ATTACKS))
"""So large that `attacking` puts every attack into every place that an archive has more than a few of."""


def write_hostile_archive(project: Path, shape: Shape, words: Words) -> Path:
    """Write the archive into a folder."""
    for address, content in hostile_files(shape, words):
        path = project / address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return project


def hostile_files(shape: Shape, words: Words) -> Iterator[tuple[str, bytes]]:
    """Yield every file of the archive with its address."""
    yield "site_config.yml", _settings(shape, words).encode()
    for number, name in enumerate(("about", "cautions")):
        yield f"content/pages/{name}.md", words("prose", number).encode()
    for number in range(shape.entries):
        yield from _entry(shape, number, words)
    for number in range(shape.refused):
        yield f"{_FIRINGS}/2027-01-01-refused-{number}/entry.md", _refused(number, words).encode()
    for number in range(shape.strays):
        name = unicodedata.normalize("NFC", words("stray", number))
        yield f"{_FIRINGS}/{name}{'/entry.md' if number % 2 else ''}", b"stray"


def _settings(shape: Shape, words: Words) -> str:
    def say(place: str, number: int = 0) -> str:
        return quoted(words(f"settings.{place}", number))

    lines = ["group:", "  url: https://example.org/fires/"]
    lines += [f"  {name}: {say(name)}" for name in OF_THE_GROUP]
    lines += ["places:", f"  rule: {say('rule')}", "potters:"]
    for number in range(shape.potters):
        lines += [f"  potter-{number}:", f"    name: {say('potter.name', number)}"]
        lines += [f"    about: {say('potter.about', number)}"]
    lines.append("methods:")
    for number in range(METHODS):
        lines += [f"  method-{number}:", f"    name: {say('method.name', number)}"]
        lines += [f"    summary: {say('method.summary', number)}"]
        lines += ["    success: {survival: [sound], carbon: [cleared]}"]
    lines += ["words:", f"  pieces.survival: [{', '.join(say('word', number) for number in range(shape.words))}]"]
    return "\n".join([*lines, ""])


def _entry(shape: Shape, number: int, words: Words) -> Iterator[tuple[str, bytes]]:
    day = f"2026-{1 + number // 28 % 12:02}-{1 + number % 28:02}"
    folder = f"{_FIRINGS}/{day}-fire-{number}"
    fields = _fields(day, number, shape, words)
    text = "\n".join(["---", *fields, "---", words("story", number), ""])
    yield f"{folder}/entry.md", text.encode()
    if number % 2:
        yield f"{folder}/{_LOG}", _readings_file(number // 2, words).encode()
    for at in range(shape.photos):
        yield f"{folder}/{_photo(at)}", _photo_bytes(words("photo", number * shape.photos + at))


def _photo(at: int) -> str:
    return f"it's {{{{ x }}}} ({at}).png"


def _fields(day: str, number: int, shape: Shape, words: Words) -> Iterator[str]:
    def say(path: str) -> str:
        return quoted(words(path, number))

    def several(path: str) -> str:
        return f"[{', '.join(quoted(words(path, 8 * number + more)) for more in range(8))}]"

    def group(name: str, *inside: str) -> str:
        return f"{name}: {{{', '.join(f'{each}: ' + say(f'{name}.{each}') for each in inside)}}}"

    yield f"title: {say('title')}"
    yield from (f"date: {day}", f"potter: potter-{number % shape.potters}", f"method: method-{number % METHODS}")
    yield from (f"place: {say('place')}", f"ware: {say('ware')}")
    yield f"clay: {{body: {say('clay.body')}, temper: {several('clay.temper')}}}"
    yield group("surface", "slip", "paint", "finish")
    yield f"fuel: {{wood: {several('fuel.wood')}, form: {say('fuel.form')}}}"
    yield from (group("setting", "ground", "support", "pots"), group("warm_up", "way"), group("witness", "glow"))
    yield from _readings(number, words)
    yield "pieces:"
    for at in range(number * shape.pieces, (number + 1) * shape.pieces):
        told = {name: quoted(words(f"pieces.{name}", at)) for name in ("name", "form", "hardness", "remark")}
        yield "  - {" + ", ".join(f"{name}: {value}" for name, value in told.items()) + ", survival: sound}"
    yield "photos:"
    for at in range(shape.photos):
        yield f'  - file: "{_photo(at)}"'
        for name in ("alt", "caption", "credit"):
            yield f"    {name}: {quoted(words(f'photos.{name}', number * shape.photos + at))}"


def _readings(number: int, words: Words) -> Iterator[str]:
    name, position = (quoted(words(f"readings.probes.{each}", number)) for each in ("name", "position"))
    yield from ("readings:", "  time: elapsed")
    if number % 2:
        yield f'  file: "{_LOG}"'
        yield f"  probes: [{{name: {name}, position: {position}, column: 2, unit: °C}}]"
        return
    yield f"  probes: [{{name: {name}, position: {position}, instrument: other}}]"
    yield "  rows: |"
    for minute in range(24):
        event = " ".join(words("event", 24 * (number // 2) + minute).split())
        yield f"    {minute}:00  {20 + 30 * minute} °C  {event}"


def _readings_file(number: int, words: Words) -> str:
    """Write a log whose headings and remarks are somebody's; a heading that speaks of notes makes a column remarks."""

    def cell(text: str) -> str:
        return '"' + text.replace('"', '""').replace("\n", " ") + '"'

    heads = [words("log.heading", 3 * number + at) for at in range(3)]
    rows = (f"{minute}:00,{20 + 30 * minute},{cell(words('log.remark', 24 * number + minute))}" for minute in range(24))
    return "\n".join([f"{cell(heads[0])},{cell(heads[1])},{cell(heads[2] + ' notes')}", *rows, ""])


def _photo_bytes(words: str) -> bytes:
    notes = PngImagePlugin.PngInfo()
    notes.add_text("Comment", words)
    notes.add_itxt("XML:com.adobe.xmp", words)
    packed = io.BytesIO()
    Image.new("RGB", (64, 48), "grey").save(packed, "PNG", pnginfo=notes)
    return packed.getvalue()


def _refused(number: int, words: Words) -> str:
    def say(place: str) -> str:
        return quoted(words(f"refused.{place}", number))

    return "\n".join(
        [
            "---",
            f"title: Refused {number}",
            "date: 2027-01-01",
            f"potter: {say('potter')}",
            f"method: {say('method')}",
            f"{say('key')}: 1",
            f"clay: {{wall: {say('quantity')}, {say('inner key')}: 1}}",
            f"pieces: [{{name: jar, survival: {say('word')}}}]",
            f"photos: [{{file: {say('file')}, alt: The jar}}]",
            "---",
            "",
        ]
    )
