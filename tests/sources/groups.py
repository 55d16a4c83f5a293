"""Archives of several groups, made of the one that ships and of small ones, and their published data."""

from __future__ import annotations

import re
import shutil
import zipfile
from pathlib import Path

from builder.base.problem import Problem
from builder.build import Options, build
from builder.commands.cli import main
from builder.examine import Examined, examine_all
from builder.settings_file import load_settings
from builder.sources.joining import join
from tests.commands.archives import SETTINGS, write_archive

DEMO = Path(__file__).parents[2]
JOINED = """\
group: {name: The river groups, title: The river fires}
methods:
  open-fire:
    {name: Open fire, kind: ground, window: 660 °C to 800 °C, success: {survival: [sound], carbon: [cleared]}}
"""


def split_demo(root: Path) -> tuple[Path, Path]:
    """Part the archive that ships into two groups by the day of each firing: even days and odd ones."""
    groups = []
    for name, odd in (("lode", 0), ("fen", 1)):
        project = root / name
        shutil.copytree(DEMO / "content" / "pages", project / "content" / "pages")
        (project / "site_config.yml").write_text(settings_of(name), encoding="utf-8")
        for folder in sorted((DEMO / "content" / "firings").iterdir()):
            if int(folder.name[8:10]) % 2 == odd:
                shutil.copytree(folder, project / "content" / "firings" / folder.name)
        groups.append(project)
    return groups[0], groups[1]


def settings_of(name: str) -> str:
    """Return the settings of the archive that ships, as those of another group."""
    text = (DEMO / "site_config.yml").read_text(encoding="utf-8")
    title = name.title()
    text = text.replace("The Thornlode Fire Study Group", f"The {title} Group")
    text = text.replace("The Thornlode Ashbook", f"The {title} Ashbook")
    text = text.replace('url: ""', f'url: "https://{name}.example/fires/"')
    return text.replace("licence: CC-BY-4.0", "licence: CC0-1.0" if name == "fen" else "licence: CC-BY-4.0")


def joined_demo(root: Path, sources: str) -> Path:
    """Write an archive with the methods of the one that ships, no potters, and these sources."""
    project = root / "both"
    (project / "content" / "pages").mkdir(parents=True)
    text = re.sub(r"potters:\n(  .*\n)*", "", settings_of("both"))
    (project / "site_config.yml").write_text(f"{text}\nsources:\n{sources}", encoding="utf-8")
    return project


def packed(project: Path, to: Path) -> Path:
    """Pack a group's site."""
    assert main(["--project", str(project), "pack", "--to", str(to)]) == 0
    return to


def published(root: Path, name: str = "hill", firings: int = 2, settings: str = SETTINGS) -> Path:
    """Write and build a small archive, and return its published site."""
    project = write_archive(root / name, firings)
    (project / "site_config.yml").write_text(settings, encoding="utf-8")
    build(Options(project, project / "site", jobs=1))
    return project / "site"


def joined(root: Path, sources: str, settings: str = JOINED) -> Path:
    """Write a small archive with these sources and nothing of its own."""
    project = root / "joined"
    project.mkdir(parents=True, exist_ok=True)
    (project / "site_config.yml").write_text(f"{settings}sources:\n{sources}", encoding="utf-8")
    return project


def zipped(folder: Path, to: Path, top: str = "") -> Path:
    """Zip a folder as a desktop system does."""
    with zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED) as file:
        for path in sorted(folder.rglob("*")):
            if path.is_file():
                file.write(path, f"{top}{path.relative_to(folder).as_posix()}")
    return to


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder by its path."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def read(tmp_path: Path, source: str = "../hill/site") -> tuple[list[Examined], tuple[Problem, ...]]:
    """Join a source, examine its entries, and return them with all problems."""
    project = joined(tmp_path, f"  hill: {source}\n")
    settings, problems = load_settings(project)
    assert settings is not None, problems
    found = join(settings, project, tmp_path / "aside")
    examined = list(examine_all(found.entries, found.settings, 1))
    return examined, (*found.problems, *(one for each in examined for one in each.problems))


def told(problems: tuple[Problem, ...]) -> list[tuple[str, str]]:
    return [(found.code, found.place.file) for found in problems]


def sound(examined: list[Examined]) -> list[str]:
    return [one.entry.slug for one in examined if one.measured is not None]
