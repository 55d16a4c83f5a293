"""Make an archive of any size for the benchmark: believable in shape, invented in every word, the same each time."""

from __future__ import annotations

import io
import math
import random
from pathlib import Path

from PIL import Image

SETTINGS = """\
group: {name: Benchmark potters, title: Benchmark, notice: Made by a program to measure speed.}
potters:
%s
methods:
  open-fire:
    {name: Open fire, kind: ground, window: 660 °C to 800 °C, success: {survival: [sound], carbon: [cleared]}}
  shallow-pit: {name: Shallow pit, kind: pit, window: 640 °C to 780 °C, success: {survival: [sound]}}
  trench: {name: Trench, kind: trench, window: 700 °C to 850 °C, success: {survival: [sound]}}
  small-kiln: {name: Small kiln, kind: kiln, success: {survival: [sound], carbon: [cleared]}}
"""
METHODS = ("open-fire", "shallow-pit", "trench", "small-kiln")
WORDS = (
    "wood smoke ash clay pot rim wall slip ember wind draught stack branch fire heat dry damp ground brick edge "
    "glow dark red quiet loud crack ring slow fast open close turn wait look hand water tile jar bowl lid foot"
).split()


def make_archive(folder: Path, firings: int, seed: int = 20260502) -> None:
    """Write settings and `firings` entries: 60 readings each, two probes in a fifth, a photo in a tenth."""
    chance = random.Random(seed)
    potters = "\n".join(f"  potter-{number}: {{name: Potter {number}}}" for number in range(1, 13))
    folder.mkdir(parents=True)
    (folder / "site_config.yml").write_text(SETTINGS % potters, encoding="utf-8")
    photo = _photo()
    for number in range(firings):
        _make_entry(folder / "content" / "firings", number, chance, photo)


def _make_entry(root: Path, number: int, chance: random.Random, photo: bytes) -> None:
    day = number % 28 + 1
    month = number // 28 % 12 + 1
    year = 2000 + number // 336
    entry = root / f"{year}-{month:02}-{day:02}-fire-{number}"
    entry.mkdir(parents=True)
    with_photo = number % 10 == 0
    if with_photo:
        (entry / "drawn.jpg").write_bytes(photo)
    (entry / "entry.md").write_text(_entry(f"{year}-{month:02}-{day:02}", number, chance, with_photo), encoding="utf-8")


def _entry(date: str, number: int, chance: random.Random, with_photo: bool) -> str:
    probes = ["wall", "floor"] if number % 5 == 0 else ["wall"]
    peak = chance.gauss(740, 70)
    pieces = "\n".join(
        f"  - {{name: pot {piece}, survival: {chance.choice(['sound', 'sound', 'sound', 'cracked'])}, "
        f"carbon: {chance.choice(['cleared', 'cleared', 'core'])}}}"
        for piece in range(1, chance.randint(2, 6))
    )
    photos = "photos:\n  - {file: drawn.jpg, alt: The pots just drawn}\n" if with_photo else ""
    return (
        f"---\ntitle: Fire {number}, {chance.choice(WORDS)} and {chance.choice(WORDS)}\ndate: {date}\n"
        f"potter: potter-{number % 12 + 1}\nmethod: {METHODS[number % 4]}\nplace: Meadow {number % 7}\n"
        f"weather: {{air: {chance.randint(2, 28)} °C, wind: {chance.randint(0, 25)} km/h}}\n"
        f"clay: {{body: clay {number % 5}, temper: [{chance.choice(WORDS)}], wall: {chance.randint(4, 11)} mm}}\n"
        f"fuel: {{wood: [{chance.choice(WORDS)}], mass: {chance.randint(8, 40)} kg, stack: open}}\n"
        f"readings:\n  time: elapsed\n  probes: [{', '.join(f'{{name: {probe}}}' for probe in probes)}]\n"
        f"  rows: |\n{_rows(peak, len(probes), chance)}pieces:\n{pieces}\n{photos}---\n{_prose(chance)}\n"
    )


def _rows(peak: float, probes: int, chance: random.Random, count: int = 60) -> str:
    lines = []
    for minute in range(count):
        shape = math.sin(min(1.0, minute / 20) * math.pi / 2) * math.exp(-max(0, minute - 24) / 30)
        cells = "  ".join(f"{15 + (peak - 15) * shape + chance.gauss(0, 6):.0f} °C" for _ in range(probes))
        lines.append(f"    {minute}:00  {cells}\n")
    return "".join(lines)


def _prose(chance: random.Random) -> str:
    words = [chance.choice(WORDS) for _ in range(chance.randint(200, 600))]
    sentences = [" ".join(words[at : at + 12]).capitalize() + "." for at in range(0, len(words), 12)]
    return "\n\n".join(" ".join(sentences[at : at + 5]) for at in range(0, len(sentences), 5))


def _photo() -> bytes:
    picture = Image.radial_gradient("L").resize((1600, 1200)).convert("RGB")
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=85)
    return out.getvalue()
