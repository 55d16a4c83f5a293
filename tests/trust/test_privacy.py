"""What is withheld is nowhere: secrets are planted, an archive is built, every byte that is published is searched."""

from __future__ import annotations

import csv
import gzip
import io
import re
import zlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image, PngImagePlugin

from builder.build import Options, build
from builder.publish.publish import PublishError
from tests.sources.groups import joined, zipped

SECRETS = {
    "name": "Zephyrine Quarrington",
    "initials": "Ottoline Brambleworth",
    "first": "Peregrine Hawthornden",
    "unnamed": "Hyacinthe Farthingale",
    "unnamed key": "quillonby",
    "unnamed helper": "Barnabas Thistlewood",
    "unnamed helper's key": "brackenridge",
    "unnamed's lines": "abouttheunnamed-secret-5520",
    "typed name": "Thaddeus Quillfeather",
    "place": "52.4123789",
    "place in degrees": "52°24'44.6",
    "exif": "exif-secret-5123",
    "gps": "gps-secret-7781",
    "xmp": "xmp-secret-9921",
    "comment": "comment-secret-3355",
    "png text": "pngtext-secret-6644",
    "thumbnail": "thumbnail-secret-2211",
    "photo's name": "IMG_secret_8812",
    "log's name": "loggersecret4471",
    "beside": "beside-secret-1029",
    "comment in the entry": "yamlcomment-secret-7712",
    "comment in the settings": "settingscomment-secret-4456",
    "comment in the story": "storycomment-secret-1188",
    "file that the story names": "storyfile-secret-2020",
    "log's heading": "logheading-secret-6161",
    "log's other column": "logcolumn-secret-7373",
}
"""Each thing that must not be published, by what it is."""

WITHHELD_NAMES = tuple(name for name in SECRETS if name in ("name", "initials", "first") or name.startswith("unnamed"))
"""Those that the settings hold."""

SETTINGS = f"""\
# {SECRETS["comment in the settings"]}
group: {{name: Reedmere potters, title: Reedmere fires, url: "https://example.org/fires/"}}
potters:
  z: {{name: {SECRETS["name"]}, shown: key}}
  o: {{name: {SECRETS["initials"]}, shown: initials}}
  p: {{name: {SECRETS["first"]}, shown: first}}
  {SECRETS["unnamed key"]}: {{name: {SECRETS["unnamed"]}, about: {SECRETS["unnamed's lines"]}, shown: nobody}}
  {SECRETS["unnamed helper's key"]}: {{name: {SECRETS["unnamed helper"]}, shown: nobody}}
methods:
  open-fire: {{name: Open fire, success: {{survival: [sound]}}}}
places: {{rule: The parish., coordinates: 1 decimal}}
"""

LOG = SECRETS["log's name"]

ENTRY = """\
---
# {comment}
title: A fire
date: 2026-05-0{day}
potter: {potter}
helpers: [z, o, p, {helper}]
method: open-fire
place: "{place}"
ware: white jar
readings:
  time: elapsed
  file: {log}.csv
  probes: [{{name: wall, column: 2, unit: °C}}]
photos:
  - {{file: {photo}.jpg, alt: The jar}}
  - {{file: {photo}-b.png, alt: The other jar}}
pieces:
  - {{name: jar, survival: sound}}
---
We lit it at nine.

[//]: # ({story_comment})

![The jar]({story_file}.jpg)
"""


def write_secret_archive(project: Path) -> Path:
    """Write an archive in which every secret stands somewhere."""
    project.mkdir()
    (project / "site_config.yml").write_text(SETTINGS, encoding="utf-8")
    exact, degrees = f"Alder Fen, {SECRETS['place']} N 0.1198 E", SECRETS["place in degrees"] + '\\" N'
    unnamed = SECRETS["unnamed key"]
    fires = (("z", exact), ("o", degrees), (SECRETS["typed name"], "Alder Fen"), (unnamed, exact), (unnamed, "Fen"))
    for day, (potter, place) in enumerate(fires, 1):
        folder = project / "content" / "firings" / f"2026-05-0{day}-fire-{day}"
        folder.mkdir(parents=True)
        text = ENTRY.format(
            comment=SECRETS["comment in the entry"],
            potter=potter,
            helper=SECRETS["unnamed helper's key"],
            day=day,
            place=place,
            log=LOG,
            photo=SECRETS["photo's name"],
            story_comment=SECRETS["comment in the story"],
            story_file=SECRETS["file that the story names"],
        )
        (folder / "entry.md").write_text(text, encoding="utf-8")
        (folder / f"{LOG}.csv").write_text(_log(), encoding="utf-8")
        (folder / "diary.txt").write_text(SECRETS["beside"], encoding="utf-8")
        _write_photos(folder)
    return project


def _log() -> str:
    """Write a log with secrets above its rows and in two columns that are no probe's."""
    heading, column = SECRETS["log's heading"], SECRETS["log's other column"]
    rows = "".join(
        f"{time},{value},{column},{column}\n" for time, value in (("0:00", 14), ("5:00", 700), ("9:00", 300))
    )
    return f"{heading}\ntime,t,site,owner\n{rows}"


def _write_photos(folder: Path) -> None:
    """Write photos whose every note holds a secret."""
    picture = Image.linear_gradient("L").convert("RGB").resize((900, 600))
    exif = Image.Exif()
    exif[0x010E] = SECRETS["exif"]  # ImageDescription
    exif[0x9C9B] = SECRETS["thumbnail"].encode("utf-16-le")  # XPTitle
    gps = exif.get_ifd(0x8825)
    gps.update({1: "N", 2: (52.0, 24.0, 44.6), 3: "E", 4: (0.0, 7.0, 11.0), 29: "2026:05:02", 28: SECRETS["gps"]})
    named = folder / SECRETS["photo's name"]
    xmp = f'<x:xmpmeta xmlns:x="adobe:ns:meta/">{SECRETS["xmp"]}</x:xmpmeta>'.encode()
    picture.save(named.with_suffix(".jpg"), exif=exif, comment=SECRETS["comment"].encode(), xmp=xmp, quality=90)
    notes = PngImagePlugin.PngInfo()
    notes.add_text("Comment", SECRETS["png text"], zip=True)
    notes.add_itxt("XML:com.adobe.xmp", SECRETS["xmp"], zip=True)
    picture.save(named.with_name(f"{named.name}-b.png"), pnginfo=notes, exif=exif)


def published_bytes(folder: Path) -> Iterator[tuple[str, bytes]]:
    """Yield every file of a folder as it is, its name, and what is packed inside it."""
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        yield f"{name} (name)", name.encode()
        if not path.is_file():
            continue
        raw = path.read_bytes()
        yield name, raw
        if name.endswith(".gz"):
            yield f"{name} (unpacked)", gzip.decompress(raw)
        if raw.startswith(b"\x89PNG"):
            yield from ((f"{name} ({kind})", data) for kind, data in _png_texts(raw))


def _png_texts(raw: bytes) -> Iterator[tuple[str, bytes]]:
    at = 8
    while at < len(raw):
        size, kind = int.from_bytes(raw[at : at + 4], "big"), raw[at + 4 : at + 8]
        data = raw[at + 8 : at + 8 + size]
        if kind in (b"tEXt", b"iTXt", b"zTXt", b"eXIf"):
            for start in range(len(data)):
                if data[start : start + 1] == b"\x78":
                    try:
                        yield kind.decode(), zlib.decompress(data[start:])
                    except zlib.error:
                        continue
        at += 12 + size


def told(folder: Path) -> list[tuple[str, str]]:
    """Return each secret that is found, with where."""
    forms = {
        name: [part.lower().encode(form) for part in (text, *text.split()[-1:]) for form in ("utf-8", "utf-16-le")]
        for name, text in SECRETS.items()
    }
    return [
        (name, where)
        for where, raw in published_bytes(folder)
        for name, wanted in forms.items()
        if any(form in raw.lower() for form in wanted)
    ]


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    project = write_secret_archive(tmp_path_factory.mktemp("secrets") / "archive")
    built = build(Options(project, project / "site"))
    assert (built.entries, built.published) == (5, 3)
    return project


def test_every_planted_secret_stands_in_what_was_contributed(project: Path) -> None:
    assert {name for name, _ in told(project / "content")} | {
        name for name, _ in told(project) if name in (*WITHHELD_NAMES, "comment in the settings")
    } >= SECRETS.keys()


@pytest.mark.parametrize("folder", ["site", ".ashbook/docs"])
def test_no_secret_is_in_any_byte_that_is_published(project: Path, folder: str) -> None:
    assert told(project / folder) == []


def test_no_published_picture_holds_a_note_of_any_kind(project: Path) -> None:
    pictures = [path for path in sorted((project / "site").rglob("*")) if path.suffix in (".jpg", ".png")]
    assert len(pictures) >= 5
    for path in pictures:
        raw = path.read_bytes()
        notes = (b"Exif", b"http://ns.adobe.com", b"Photoshop", b"ICC_PROFILE", b"tEXt", b"iTXt", b"zTXt", b"eXIf")
        assert not [note for note in notes if note in raw], path.name
        assert not Image.open(io.BytesIO(raw)).getexif(), path.name


def test_a_name_that_is_withheld_later_leaves_what_is_built_next(tmp_path: Path) -> None:
    project = write_secret_archive(tmp_path / "archive")
    settings = project / "site_config.yml"
    settings.write_text(SETTINGS.replace("shown: key", "shown: full"), encoding="utf-8")
    build(Options(project, project / "site"))
    assert {"name"} == {name for name, _ in told(project / "site")}
    settings.write_text(SETTINGS, encoding="utf-8")
    build(Options(project, project / "site"))
    assert told(project / "site") == []


def test_the_whole_working_folder_holds_no_withheld_name_and_no_original(project: Path) -> None:
    withheld = {*WITHHELD_NAMES, "exif", "xmp", "comment", "png text", "thumbnail", "gps"}
    assert [found for found in told(project / ".ashbook") if found[0] in withheld] == []


def test_as_much_of_a_name_as_is_chosen_and_the_rounded_place_are_published(project: Path) -> None:
    pages = "".join(page.read_text(encoding="utf-8") for page in (project / "site").rglob("*.html"))
    assert "O. B." in pages
    assert "Peregrine" in pages
    assert "52.4 N 0.1 E" in pages


def test_who_is_shown_as_nobody_has_no_page_and_no_count_but_a_name_that_all_share(project: Path) -> None:
    site = project / "site"
    assert not list((site / "potters").glob("nobody*"))
    firing = (site / "firings" / "2026-05-04-fire-4.html").read_text(encoding="utf-8")
    assert "by a potter of the group, with" in re.sub(r"<[^>]+>", "", firing)
    assert "potters/nobody" not in firing
    assert '"author":{"@type":"Person","name":"a potter of the group"}' in firing
    listed = (site / "potters" / "index.html").read_text(encoding="utf-8")
    assert re.search(r"<h2>Not named</h2>\s*<p>Lit two fires with 2\xa0pieces", listed)
    table = (site / "data" / "firings.csv").read_text(encoding="utf-8-sig").splitlines()
    assert [row["potter"] for row in csv.DictReader(table)] == ["z", "nobody", "nobody"]


def test_offline_and_again_no_secret_is_published(project: Path) -> None:
    build(Options(project, project / "stick", offline=True))
    assert told(project / "stick") == []


@pytest.mark.parametrize("packed", [False, True])
def test_an_archive_that_is_built_from_what_was_published_holds_no_secret(
    project: Path, tmp_path: Path, packed: bool
) -> None:
    if packed:
        zipped(project / "site" / "data", tmp_path / "secrets.zip")
    source = "../secrets.zip" if packed else str(project / "site")
    other = joined(tmp_path, f"  hill: {source}\n")
    built = build(Options(other, other / "site"))
    assert (built.entries, built.published) == (3, 3)
    assert told(other) == []


def test_a_site_is_never_built_into_the_folder_of_the_originals(project: Path) -> None:
    with pytest.raises(PublishError):
        build(Options(project, project / "content"))
