"""A site that was renewed again and again is the site that would be built from nothing, byte for byte.

Long random histories of an archive: edits, renames, deletions, other settings, builds that were cut short, another
version of the program. `ASHBOOK_RENEWALS=200 pytest tests/test_renewal.py` makes the histories longer.
"""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from PIL import Image

from builder.build import WORK, Options, build
from builder.kept.store import FILE
from builder.publish.publish import theme_folder
from builder.publish.swap import MARKER
from builder.renew import renew
from tests.commands.archives import write_archive, write_entry

STEPS = int(os.environ.get("ASHBOOK_RENEWALS", "8"))
SEEDS = (1, 2, 3)
ROOT = Path(__file__).parent.parent
FACTS = (
    *("place: fen", "place: ford", "ware: jar", "ware: Jar", "ware: cup", "helpers: [tam]", "helpers: []"),
    *("clay: {temper: [chaff]}", "clay: {temper: [grog, Chaff], wall: 6 mm}", "fuel: {wood: [hazel]}"),
)
SIZES = (
    *("builder.pages.list_pages.PAGE_FIRINGS", "builder.pages.list_columns.CURVES_EACH"),
    *("builder.pages.firing_lines.MOST_LINES", "builder.own_pages._AT_ONCE"),
)
"""How many firings a page shows, and how many are kept in one: small, so that a few firings fill several."""


class Killed(BaseException):
    """Stands for a build that ends with no chance to tidy."""


@pytest.fixture
def version(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[str]:
    """Let a test say which version of the program is at work, with a theme that stays the same meanwhile."""
    now = ["1"]
    theme = shutil.copytree(theme_folder(), tmp_path / "theme")
    monkeypatch.setattr("builder.publish.publish.theme_folder", lambda: theme)
    monkeypatch.setattr("builder.publish.publish.program_version", lambda *folders: now[0])
    monkeypatch.setattr("builder.publish.publish._first", {})
    monkeypatch.setattr("builder.standing.RESTED_NS", 0)  # so that a site may stand from the moment it was built
    return now


def _bytes(site: Path) -> dict[str, bytes]:
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()}


def _same_as_from_nothing(project: Path, folder: Path, offline: bool = False, happened: Sequence[str] = ()) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    for name in ("content", "site_config.yml"):
        source = project / name
        (shutil.copytree if source.is_dir() else shutil.copy)(source, folder / name)
    build(Options(folder, folder / "site", offline, jobs=1))
    new, renewed = _bytes(folder / "site"), _bytes(project / "site")
    assert sorted(renewed) == sorted(new), happened
    assert [address for address in new if renewed[address] != new[address]] == [], happened


class _History:
    """What can happen to an archive."""

    def __init__(self, project: Path, seed: int, version: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
        self.project, self.chance, self.version, self.patch = project, random.Random(seed), version, monkeypatch
        self.number = 100
        self.offline = False

    def step(self) -> str:
        """Let one thing happen; say what."""
        things: tuple[Callable[[], None], ...] = (
            self.edit_story,
            self.edit_story,
            self.edit_readings,
            self.edit_title,
            self.edit_facts,
            self.edit_facts,
            self.write,
            self.write,
            self.remove,
            self.rename,
            self.photo,
            self.break_one,
            self.settings,
            self.prose,
            self.go_offline,
            self.killed,
            self.upgrade,
            self.damage,
            self.put_back,
            self.same_again,
        )
        thing = self.chance.choice(things)
        thing()
        return thing.__name__

    def _entries(self) -> list[Path]:
        return sorted((self.project / "content" / "firings").glob("*/entry.md"))

    def _change(self, old: str, new: str) -> None:
        if entries := self._entries():
            entry = self.chance.choice(entries)
            entry.write_text(entry.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")

    def edit_story(self) -> None:
        self._change("We lit it", f"We ({self.chance.random():.3f}) lit it")

    def edit_readings(self) -> None:
        self._change("565 °C", f"{self.chance.randint(500, 640)} °C")

    def edit_title(self) -> None:
        self._change("title: ", "title: Another ")

    def edit_facts(self) -> None:
        """Let an entry say otherwise where the fire was, what was made, of what, and who helped."""
        if entries := self._entries():
            entry, said = self.chance.choice(entries), self.chance.choice(FACTS)
            lines = entry.read_text(encoding="utf-8").splitlines()
            lines = [line for line in lines if line.partition(":")[0] != said.partition(":")[0]]
            lines.insert(lines.index("method: open-fire"), said)
            entry.write_text("\n".join(lines) + "\n", encoding="utf-8")

    def write(self) -> None:
        self.number += 1
        slug = f"{self.chance.randint(2020, 2026)}-05-02-fire-{self.number}"
        write_entry(self.project, slug, f"Fire {self.number}", self.chance.randint(640, 860))

    def remove(self) -> None:
        if entries := self._entries():
            shutil.rmtree(self.chance.choice(entries).parent)

    def rename(self) -> None:
        if entries := self._entries():
            folder = self.chance.choice(entries).parent
            self.number += 1
            folder.rename(folder.with_name(f"{folder.name[:10]}-renamed-{self.number}"))

    def photo(self) -> None:
        if entries := self._entries():
            entry = self.chance.choice(entries)
            shade = self.chance.randint(0, 255)
            Image.new("RGB", (600, 400), (shade, 80, 20)).save(entry.parent / "drawn.jpg")
            text = entry.read_text(encoding="utf-8")
            if "photos:" not in text:
                entry.write_text(
                    text.replace("pieces:", "photos: [{file: drawn.jpg, alt: Drawn}]\npieces:", 1), "utf-8"
                )

    def break_one(self) -> None:
        self._change("survival: sound", self.chance.choice(["survival: soundish", "survival: cracked"]))

    def settings(self) -> None:
        file = self.project / "site_config.yml"
        old, new = self.chance.choice(
            [
                ("Reedmere fires", "Fires of Reedmere"),
                ("Wren Oddie", "W. Oddie"),
                ("660 °C", "640 °C"),
                ("carbon: [cleared]", "carbon: [cleared, patches]"),
                ("Open fire", "Open bonfire"),
            ]
        )
        text = file.read_text(encoding="utf-8")
        file.write_text(text.replace(old, new) if old in text else text.replace(new, old), encoding="utf-8")

    def prose(self) -> None:
        folder = self.project / "content" / "pages"
        folder.mkdir(exist_ok=True)
        (folder / "about.md").write_text(f"We fire by the {self.chance.choice(['fen', 'mere', 'ford'])}.\n", "utf-8")

    def go_offline(self) -> None:
        self.offline = not self.offline

    def killed(self) -> None:
        """Change an entry, and let the build end at one of its stages."""
        self.edit_readings()
        self.write()
        stage = self.chance.choice(
            ["render.write_page", "publish.publish.swap_in", "publish.making.press", "stages.gathered"]
        )

        def end(*given: object, **named: object) -> None:
            raise Killed

        with self.patch.context() as patch, pytest.raises(Killed):
            patch.setattr(f"builder.{stage}", end)
            self.build()
            raise Killed  # Nothing was left to do at that stage.

    def upgrade(self) -> None:
        self.version[0] = f"{self.chance.random()}"

    def damage(self) -> None:
        """Harm the working folder or the site."""
        work = self.project / WORK
        files = sorted(path for path in (*work.rglob("*"), *(self.project / "site").rglob("*")) if path.is_file())
        path = self.chance.choice([path for path in files if path.name != MARKER])
        if self.chance.random() < 0.3:
            path = work / FILE
        content = path.read_bytes() if path.is_file() else b"gone"
        at = self.chance.randrange(len(content) + 1)
        path.write_bytes(content[:at] + bytes(self.chance.randrange(256) for _ in range(8)) + content[at + 8 :])

    def put_back(self) -> None:
        """Give back an entry's earlier bytes under their earlier time, as a version control system may."""
        if entries := self._entries():
            entry = self.chance.choice(entries)
            before, times = entry.read_bytes(), entry.stat()
            entry.write_bytes(before.replace(b"210", b"211"))
            self.build()
            entry.write_bytes(before)
            os.utime(entry, ns=(times.st_atime_ns, times.st_mtime_ns))

    def same_again(self) -> None:
        """Nothing at all."""

    def build(self) -> None:
        renew(Options(self.project, self.project / "site", self.offline, jobs=1))


@pytest.mark.parametrize("seed", SEEDS)
def test_after_any_history_the_site_is_the_one_built_from_nothing(
    seed: int, tmp_path: Path, version: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    for size in SIZES:
        monkeypatch.setattr(size, 2)
    project = write_archive(tmp_path / "archive", 6)
    happened: list[str] = []
    history = _History(project, seed, version, monkeypatch)
    history.build()
    for _ in range(STEPS):
        for _ in range(history.chance.randint(1, 3)):
            happened.append(history.step())
        history.build()
        _same_as_from_nothing(project, tmp_path / "new", history.offline, happened)


def _counting(monkeypatch: pytest.MonkeyPatch, name: str) -> list[object]:
    """Collect the first argument of every call of a function."""
    module, _, function = name.rpartition(".")
    seen: list[object] = []
    original = getattr(__import__(module, fromlist=[function]), function)

    def counted(first: object, *others: object, **named: object) -> object:
        seen.append(first)
        return original(first, *others, **named)

    monkeypatch.setattr(name, counted)
    return seen


def test_one_edited_entry_is_the_only_one_that_is_examined_and_drawn(
    tmp_path: Path, version: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    project = write_archive(tmp_path / "archive", 6)
    build(Options(project, project / "site", jobs=1))
    examined = _counting(monkeypatch, "builder.examine.examine")
    drawn = _counting(monkeypatch, "builder.render.entry_page")
    entry = project / "content/firings/2026-05-03-fire-3/entry.md"
    entry.write_text(entry.read_text(encoding="utf-8").replace("at nine", "at ten"), encoding="utf-8")
    build(Options(project, project / "site", jobs=1))
    assert len(examined) == 1
    assert b"at ten" in (project / "site/firings/2026-05-03-fire-3.html").read_bytes()
    assert 1 <= len(drawn) < 6
    build(Options(project, project / "site", jobs=1))
    assert len(examined) == 1
    _same_as_from_nothing(project, tmp_path / "new")


def test_the_name_of_the_archive_changes_every_page_and_no_figure(
    tmp_path: Path, version: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    project = write_archive(tmp_path / "archive", 3)
    build(Options(project, project / "site", jobs=1))
    examined = _counting(monkeypatch, "builder.examine.examine")
    file = project / "site_config.yml"
    file.write_text(file.read_text(encoding="utf-8").replace("Reedmere fires", "Other fires"), encoding="utf-8")
    build(Options(project, project / "site", jobs=1))
    assert examined == []
    assert all(b"Other fires" in path.read_bytes() for path in (project / "site").rglob("*.html"))


def test_the_working_folder_does_not_grow_with_the_number_of_builds(tmp_path: Path, version: list[str]) -> None:
    project = write_archive(tmp_path / "archive", 3)
    sizes = []
    for number in range(6):
        write_entry(project, "2026-06-01-passing", f"Fire {number}")
        build(Options(project, project / "site", jobs=1))
        shutil.rmtree(project / "content/firings/2026-06-01-passing")
        build(Options(project, project / "site", jobs=1))
        sizes.append(sum(path.stat().st_size for path in (project / WORK).rglob("*") if path.is_file()))
    assert max(sizes[2:]) <= 1.02 * sizes[1]


def test_pictures_are_made_again_only_where_the_photo_is_another(
    tmp_path: Path, version: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    project = write_archive(tmp_path / "archive", 2)
    entry = project / "content/firings/2026-05-01-fire-1/entry.md"
    Image.new("RGB", (600, 400), (200, 80, 20)).save(entry.parent / "drawn.jpg")
    photos = "photos: [{file: drawn.jpg, alt: Drawn}]\npieces:"
    entry.write_text(entry.read_text(encoding="utf-8").replace("pieces:", photos, 1), encoding="utf-8")
    build(Options(project, project / "site", jobs=1))
    remade = _counting(monkeypatch, "builder.publish.pictures.remake")
    entry.write_text(entry.read_text(encoding="utf-8").replace("title: ", "title: Another "), encoding="utf-8")
    build(Options(project, project / "site", jobs=1))
    assert remade == []
    Image.new("RGB", (600, 400), (20, 80, 200)).save(entry.parent / "drawn.jpg")
    build(Options(project, project / "site", jobs=1))
    assert len(remade) == 1
    _same_as_from_nothing(project, tmp_path / "new")


HEAVY = ("matplotlib", "mkdocs", "material", "PIL", "markdown", "multiprocessing", "email", "builder.pages.site_pages")
"""What takes long to load, and what no story needs that is plain words."""


def test_an_edited_story_loads_nothing_that_it_does_not_need(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 3)
    build(Options(project, project / "site", offline=True, jobs=1))
    entry = project / "content/firings/2026-05-01-fire-1/entry.md"
    entry.write_text(f"{entry.read_text(encoding='utf-8')}\nMore words.\n", encoding="utf-8")
    words = (
        "import sys; from pathlib import Path; from builder.asked import Options; from builder.renew import renew\n"
        f"project = Path({str(project)!r}); print(renew(Options(project, project / 'site', True, jobs=1)).published)\n"
        f"print([name for name in {HEAVY} if name in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, check=True, cwd=ROOT)
    assert told.stdout.split("\n")[:2] == ["3", "[]"]
    assert "More words." in (project / "site/firings/2026-05-01-fire-1.html").read_text(encoding="utf-8")
