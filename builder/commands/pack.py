"""`ashbook pack`: the site as one zip file for a memory stick, the same bytes for the same content."""

from __future__ import annotations

import argparse
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

from builder.base.problem import has_errors
from builder.build import WORK, Built, Options, build
from builder.commands.build_command import counted, shown
from builder.commands.progress import StagedProgress
from builder.commands.report import report, summary
from builder.commands.workplace import emptied
from builder.entries.find import suggest_words
from builder.publish.errors import OutputRefused
from builder.publish.publish import PublishError
from builder.publish.swap import locked
from builder.settings import Settings
from builder.settings_file import load_settings

READ_ME = "READ-ME-FIRST.txt"
LOCK = Path(WORK) / "pack"
_LONG_AGO = (1980, 1, 1, 0, 0, 0)
"""The date of every file in the zip; the earliest that the format can write."""
_OWN_FOLDERS = ("content", "builder", "theme", "tests")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("--to", type=Path, metavar="FILE.zip", help="where it goes (default: beside site_config.yml)")
    parser.add_argument("--strict", action="store_true", help="pack nothing while an entry has an error")


def run(args: argparse.Namespace) -> int:
    """Build the site as for a folder, and pack it."""
    settings, problems = load_settings(args.project)
    if settings is None:
        print(report(problems, args.project, "text"))
        return 1
    name = suggest_words(settings.group.title) or "ashbook"
    to = (args.to or args.project / f"{name}.zip").absolute()
    refused = _refusal(to, args.project)
    if refused:
        print(refused, file=sys.stderr)
        return 2
    try:
        with locked(args.project / LOCK), emptied(to.with_name(f".{to.stem}.ashbook-pack")) as aside:
            return _pack(to, name, aside / "site", settings, args)
    except OutputRefused:
        print("Another `pack` or `build` is at work here; wait until it is done.", file=sys.stderr)
        return 1


def _pack(to: Path, name: str, site: Path, settings: Settings, args: argparse.Namespace) -> int:
    """Build the site aside, and pack it."""
    progress = StagedProgress()
    try:
        built = build(Options(args.project, site, offline=True, strict=args.strict), progress)
    except OutputRefused:
        progress.close()
        raise
    except PublishError as error:
        progress.close()
        print(f"The site was not packed: {error}", file=sys.stderr)
        return 1
    progress.close()
    if built.published is not None:
        _write(to, site.with_name("packed.zip"), dict(_contents(site, name, settings)))
    return _tell(built, to, args.project)


def _refusal(to: Path, project: Path) -> str:
    """Say why nothing may be written there; empty where it may."""
    real = to.resolve()
    if to.suffix.lower() != ".zip":
        return f"{to.name} does not end in .zip."
    if to.is_dir() or not to.parent.is_dir():
        return f"{to} is a folder." if to.is_dir() else f"There is no folder {to.parent}."
    for name in _OWN_FOLDERS:
        own = (project / name).resolve()
        if own in real.parents:
            return f"{shown(to)} lies in {name}/, which holds the archive's own files; name another place."
    if to.exists() and not _is_a_pack(to):
        return f"{shown(to)} is there already and was not made by `ashbook pack`; name another file."
    return ""


def _is_a_pack(path: Path) -> bool:
    try:
        with zipfile.ZipFile(path) as file:
            return any(name.endswith(f"/{READ_ME}") for name in file.namelist())
    except (OSError, zipfile.BadZipFile):
        return False


def _contents(site: Path, name: str, settings: Settings) -> Iterator[tuple[str, bytes]]:
    yield f"{name}/{READ_ME}", _read_me(settings).encode()
    for path in sorted(site.rglob("*")):
        inside = path.relative_to(site).as_posix()
        if path.is_file() and not inside.startswith("."):
            yield f"{name}/site/{inside}", path.read_bytes()


def _read_me(settings: Settings) -> str:
    """Write the page that tells how to open the site, with line ends that every system shows."""
    group = settings.group
    lines = [
        group.title,
        "=" * len(group.title),
        "",
        f"The archive of firings of {group.name}, to read without a network.",
        "",
        "1. Copy this whole folder to a disk or a memory stick. Do not open it inside the zip file:",
        "   most systems then show single pages only.",
        "2. Open the folder `site` and in it the file `index.html`, in any browser.",
        "",
        "Nothing is sent anywhere. All data lies in `site/data` as tables.",
        "",
        f"Licence: {group.licence}, where a firing names no other.",
    ]
    if group.notice:
        lines += ["", group.notice]
    if group.contact:
        lines += ["", f"Who keeps it: {group.contact}"]
    cautions = (
        "",
        "The pages on cautions list reasons to stop. They never say that something is safe: local fire rules, the",
        "landowner, the fire service and licensed practice come first.",
        "",
    )
    return "\r\n".join([*lines, *cautions])


def _write(to: Path, aside: Path, contents: dict[str, bytes]) -> None:
    """Write the zip aside and move it to its place in one step."""
    with aside.open("wb") as out, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as file:
        for inside in sorted(contents):
            info = zipfile.ZipInfo(inside, _LONG_AGO)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.create_system = 3
            info.external_attr = 0o100644 << 16
            file.writestr(info, contents[inside])
    aside.chmod(0o644)
    aside.replace(to)


def _tell(built: Built, to: Path, project: Path) -> int:
    if built.problems:
        print(report(built.problems, project, "text"))
    print(summary(built.problems, built.entries), file=sys.stderr)
    if built.published is None:
        print("Nothing was packed.", file=sys.stderr)
        return 1
    print(f"{counted(built.published)} packed in {shown(to)}, {to.stat().st_size / 1e6:.1f} MB.", file=sys.stderr)
    return 1 if has_errors(built.problems) else 0
