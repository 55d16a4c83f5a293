"""An archive whose every contributed word is an attack: the settings, the pages, the entries, their files and names."""

from __future__ import annotations

import itertools
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path

from PIL import Image, PngImagePlugin

from builder.checks.hidden import hidden_fault, hidden_in_story, tidy
from builder.checks.limits import longest_text
from builder.checks.places import read_place
from builder.entries.compose import quoted
from tests.trust.attacks import ATTACKS

PIECES = 60
"""Pieces of each entry: four places each."""

Words = Callable[[str, int], str]
"""Given a place (a field's path) and a number, the words that go there."""


def fits(path: str, text: str) -> bool:
    """Tell whether the check takes the words in a field, so that they reach the site at all."""
    if hidden_fault(text) is not None or not tidy(text) or len(tidy(text)) > longest_text(path):
        return False
    return path != "place" or read_place(tidy(text), None) == tidy(text)


def attacks_for(path: str) -> tuple[str, ...]:
    """Return the attacks that a field takes, as the site shows them."""
    if path == "story":
        return tuple(attack.text for attack in ATTACKS if hidden_in_story(attack.text) is None)
    return tuple(dict.fromkeys(tidy(attack.text) for attack in ATTACKS if fits(path, attack.text)))


def attacking(path: str, number: int) -> str:
    """Return one attack for a place; consecutive numbers go through all of them."""
    found = attacks_for(path)
    return found[number % len(found)]


def tame(path: str, number: int) -> str:
    """Return harmless words in the same places."""
    return f"words {path.replace('.', ' ')} {number}"


def write_hostile_archive(project: Path, entries: int, words: Words, potters: int = 8, first: int = 0) -> Path:
    """Write the archive; numbers count from `first`, so that other runs use other attacks in places that are few."""
    (project / "content" / "pages").mkdir(parents=True)
    (project / "site_config.yml").write_text(_settings(words, potters, first), encoding="utf-8")
    prose = "\n\n".join(attacks_for("story")) if words is attacking else "Words.\n\n# A heading\n\n- a list"
    for name in ("about", "cautions"):
        (project / "content" / "pages" / f"{name}.md").write_text(prose, encoding="utf-8", newline="\n")
    for number in range(first, first + entries):
        _write_entry(project, number, words, potters, prose)
    if words is attacking:
        _write_stray_files(project / "content" / "firings")
    return project


def _settings(words: Words, potters: int, first: int) -> str:
    def say(place: str, number: int = 0) -> str:
        return quoted(words(place, first + number))

    lines = ["group:", "  url: https://example.org/fires/"]
    lines += [
        f"  {name}: {say('settings', at)}" for at, name in enumerate(("name", "title", "about", "contact", "notice"))
    ]
    lines += ["places:", f"  rule: {say('settings', 5)}", "potters:"]
    for number in range(potters):
        lines += [f"  potter-{number}:", f"    name: {say('settings', 10 + number)}"]
        lines += [f"    about: {say('settings', 90 + number)}"]
    lines.append("methods:")
    for number in range(4):
        lines += [f"  method-{number}:", f"    name: {say('settings', 6 + number)}"]
        lines += [
            f"    summary: {say('settings', 170 + number)}",
            "    success: {survival: [sound], carbon: [cleared]}",
        ]
    lines.append("words:")
    lines.append(f"  pieces.survival: [{say('settings', 200)}]")
    return "\n".join([*lines, ""])


def _write_entry(project: Path, number: int, words: Words, potters: int, story: str) -> None:
    day = f"2026-{1 + number // 28 % 12:02}-{1 + number % 28:02}"
    folder = project / "content" / "firings" / f"{day}-fire-{number}"
    folder.mkdir(parents=True)
    text = "\n".join(["---", *_fields(day, number, words, potters), "---", story, ""])
    (folder / "entry.md").write_text(text, encoding="utf-8", newline="\n")
    if number % 2:
        (folder / "a'b {{ x }} =1+1.csv").write_text(_readings_file(number, words), encoding="utf-8", newline="\n")
    _write_photo(folder / "it's {{ x }} (1).png", words("photo", number))


def _fields(day: str, number: int, words: Words, potters: int) -> Iterator[str]:
    def say(path: str, more: int = 0) -> str:
        return quoted(words(path, number + more))

    def several(path: str) -> str:
        return f"[{', '.join(say(path, 8 * more) for more in range(8))}]"

    yield f"title: {say('title')}"
    yield from (f"date: {day}", f"potter: potter-{number % potters}", f"method: method-{number % 4}")
    yield from (f"place: {say('place')}", f"ware: {say('ware')}")
    yield f"clay: {{body: {say('clay.body')}, temper: {several('clay.temper')}}}"
    yield "surface: {" + ", ".join(f"{name}: {say(f'surface.{name}')}" for name in ("slip", "paint", "finish")) + "}"
    yield f"fuel: {{wood: {several('fuel.wood')}, form: {say('fuel.form')}}}"
    yield "setting: {" + ", ".join(f"{name}: {say(f'setting.{name}')}" for name in ("ground", "support", "pots")) + "}"
    yield f"warm_up: {{way: {say('warm_up.way')}}}"
    yield f"witness: {{glow: {say('witness.glow')}}}"
    yield from _readings(number, words)
    yield "pieces:"
    for at in range(PIECES):
        told = {name: say(f"pieces.{name}", PIECES * number + at) for name in ("name", "form", "hardness", "remark")}
        yield "  - {" + ", ".join(f"{name}: {value}" for name, value in told.items()) + ", survival: sound}"
    yield "photos:"
    yield '  - file: "it\'s {{ x }} (1).png"'
    yield from (f"    {name}: {say(f'photos.{name}')}" for name in ("alt", "caption", "credit"))


def _readings(number: int, words: Words) -> Iterator[str]:
    name, position = quoted(words("readings.probes.name", number)), quoted(words("readings.probes.position", number))
    yield from ("readings:", "  time: elapsed")
    if number % 2:
        yield '  file: "a\'b {{ x }} =1+1.csv"'
        yield f"  probes: [{{name: {name}, position: {position}, column: 2, unit: °C}}]"
        return
    yield f"  probes: [{{name: {name}, position: {position}, instrument: other}}]"
    yield "  rows: |"
    for minute in range(24):
        event = " ".join(words("event", 24 * number + minute).split())
        yield f"    {minute}:00  {20 + 30 * minute} °C  {event}"


def _readings_file(number: int, words: Words) -> str:
    """Write a log whose headings and notes are attacks."""

    def cell(more: int) -> str:
        return '"' + words("cell", number + more).replace('"', '""').replace("\n", " ") + '"'

    rows = (f"{minute}:00,{20 + 30 * minute},{cell(30 + minute)}" for minute in range(24))
    return "\n".join([f"{cell(0)},{cell(1)},{cell(2)}", *rows, ""])


def _write_photo(path: Path, words: str) -> None:
    notes = PngImagePlugin.PngInfo()
    notes.add_text("Comment", words)
    notes.add_itxt("XML:com.adobe.xmp", words)
    Image.new("RGB", (64, 48), "grey").save(path, pnginfo=notes)


def _write_stray_files(folder: Path) -> None:
    """Leave files whose names are attacks beside the firings' folders; the About page names them."""
    names = (attack.text for attack in ATTACKS if "/" not in attack.text and "\0" not in attack.text)
    for name in itertools.islice((one for one in names if len(one.encode()) < 200), 40):
        (folder / unicodedata.normalize("NFC", name)).write_text("stray", encoding="utf-8")
