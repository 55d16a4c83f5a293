"""The commands that write, killed at random moments: nothing half written, nothing lost, and the next run succeeds."""

from __future__ import annotations

import contextlib
import io
import os
import shutil
import signal
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from builder.build import WORK
from builder.commands.all_or_nothing import is_unfinished
from builder.commands.cli import main
from tests.commands.archives import write_archive
from tests.intake.zips import sound_files, write_zip
from tests.trust.faults import Bytes, end_of

START = "start --potter wren --method open-fire --piece a=sound --date 2026-05-09 --title"
_OLD_NOTES = "title,date,potter,method,piece,survival\n" + "".join(
    f"Old fire {day},2025-07-0{day},wren,open-fire,jar,sound\n" for day in range(1, 5)
)


@dataclass(frozen=True, slots=True)
class Command:
    """One command as it is tried."""

    words: tuple[str, ...]
    """What it is told; `HERE` stands for the folder of the trial."""
    already: str
    """A part of what the next run says where it refuses because the killed one had done all."""
    prepare: Callable[[Path], None] = lambda here: None
    by_parts: bool = False
    """Whether folders of firings come in one after another, each whole."""
    goes_on: bool = False
    """Whether the same words, given again after all was done, do the next thing."""


def _submissions(here: Path) -> None:
    for number in range(3):
        write_zip(here / "in" / f"{number}.zip", sound_files(f"2026-06-2{number}-pale-jar"))


def _notes(here: Path) -> None:
    (here / "old.csv").write_text(_OLD_NOTES, encoding="utf-8")


def _notes_and_mapping(here: Path) -> None:
    _notes(here)
    with contextlib.redirect_stdout(io.StringIO()):
        code = main(["--project", str(here / "archive"), "import-table", str(here / "old.csv")])
    if code:
        raise AssertionError("the mapping could not be drafted")


def _empty_folder(here: Path) -> None:
    (here / "group").mkdir()


COMMANDS = {
    "start": Command((*START.split(), "Second"), "already"),
    "accept": Command(("accept", "HERE/in"), "already", _submissions, by_parts=True),
    "import-table": Command(("import-table", "HERE/old.csv"), "word for word", _notes_and_mapping, by_parts=True),
    "import-table, the mapping": Command(("import-table", "HERE/old.csv"), "", _notes, goes_on=True),
    "new-group": Command(("new-group", "HERE/group", "--name", "Other fires"), "not an empty folder"),
    "new-group, in a folder": Command(("new-group", "HERE/group"), "not an empty folder", _empty_folder),
    "forget": Command(("forget", "wren", "--yes"), "no potter"),
    "forget, with entries": Command(("forget", "wren", "--entries", "--to", "HERE/out", "--yes"), "no potter"),
    "pack": Command(("pack", "--to", "HERE/site.zip"), "packed in"),
}


@dataclass(slots=True)
class Killed:
    """What came of many kills."""

    killed: int = 0
    finished: int = 0
    """Runs that were done before the blow fell."""
    faults: list[str] = field(default_factory=list)


def kill_commands(folder: Path, times: int, seed: int = 1, names: tuple[str, ...] = tuple(COMMANDS)) -> Killed:
    """Kill each command so many times, each time in a fresh archive, and hold what is there to what may be there."""
    rng, result = Random(seed), Killed()
    for name in names:
        command, fresh = COMMANDS[name], folder / "fresh"
        write_archive(fresh / "archive", 2)
        (fresh / "in").mkdir()
        command.prepare(fresh)
        whole, longest = _done_whole(command, fresh, folder / "trial")
        for _ in range(times):
            shutil.copytree(fresh, folder / "trial")
            _kill_one(name, folder / "trial", rng.uniform(0, longest), _state(fresh), whole, result)
            shutil.rmtree(folder / "trial")
        shutil.rmtree(fresh)
    return result


def _done_whole(command: Command, fresh: Path, here: Path) -> tuple[Bytes, float]:
    """Return what stands there when nobody disturbs the command, and how long it takes."""
    shutil.copytree(fresh, here)
    began = time.monotonic()
    code = end_of(_in_a_process(command, here))
    took = time.monotonic() - began
    if code:
        raise AssertionError(f"{command.words[0]} does not work undisturbed: {_words_of(here)}")
    whole = _state(here)
    shutil.rmtree(here)
    return whole, took


def _kill_one(name: str, here: Path, seconds: float, before: Bytes, whole: Bytes, result: Killed) -> None:
    command = COMMANDS[name]
    child = _in_a_process(command, here)
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    code = end_of(child)
    result.killed += code == -signal.SIGKILL
    result.finished += code == 0
    faults = [] if code in (0, -signal.SIGKILL) else [f"exit {code}: {_words_of(here)}"]
    faults += _half(here, before, whole, command)
    was_whole, unfinished = _state(here) == whole, is_unfinished(here / "archive")
    if unfinished and main(["--project", str(here / "archive"), "check"]) != 1:
        faults.append("another command ran while a change was half done")
    code = end_of(_in_a_process(command, here))
    said = _words_of(here)
    if code and not (was_whole or unfinished):
        faults.append(f"the next run ended with {code}: {said}")
    if was_whole and code and command.already not in said and not unfinished:
        faults.append(f"the next run does not say that all is done: {said}")
    if _state(here) != whole and not (was_whole and command.goes_on):
        faults.append(f"after the next run: {_difference(_state(here), whole)}")
    faults += _litter(here, command)
    result.faults += [f"{name}, killed after {seconds:.4f} s: {fault}" for fault in faults]


def _half(here: Path, before: Bytes, whole: Bytes, command: Command) -> list[str]:
    """Tell what is neither as before nor done; a change that has been decided on may stand in the middle."""
    state = _state(here)
    if state in (before, whole):
        return []
    if is_unfinished(here / "archive"):
        return [f"lost: {name}" for name in before.keys() - state.keys() if name not in _kept_aside(here, before[name])]
    if command.by_parts:
        come = {name.rpartition("/")[0] for name in state.keys() - before.keys()}
        wanted = before | {name: data for name, data in whole.items() if name.rpartition("/")[0] in come}
        return [] if state == wanted else [f"half written: {_difference(state, wanted)}"]
    if command.words[0] == "forget":  # copies are handed out before anything is taken away
        outside = {name: data for name, data in state.items() if name.startswith("out/")}
        rest = {name: data for name, data in state.items() if name not in outside}
        return (
            [] if rest == before and outside.items() <= whole.items() else [f"half done: {_difference(state, before)}"]
        )
    if command.words[0] == "new-group" and (here / "group" / ".ashbook-new").is_dir():
        return [] if state.items() <= whole.items() else [f"half written: {_difference(state, whole)}"]
    return [f"half written: {_difference(state, before)}"]


def _kept_aside(here: Path, data: bytes) -> set[str]:
    """Return the names of all files of the trial, wherever they are, that hold these bytes."""
    found = [path for path in here.rglob("*") if path.is_file() and path.read_bytes() == data]
    return {f"archive/content/firings/{path.parent.name}/{path.name}" for path in found} | (
        {"archive/site_config.yml"} if found else set()
    )


def _litter(here: Path, command: Command) -> list[str]:
    """Tell what is left behind after two more runs: of the same command, and of one that does its work."""
    if command.words[0] in ("start", "accept", "import-table"):
        end_of(_in_a_process(Command((*START.split(), "Another"), ""), here))
    left = [path for path in here.rglob("*") if _is_aside(path.name) and path != here / "archive" / WORK]
    return [f"left behind: {path.relative_to(here)}" for path in left if path.parent.name != WORK]


def _in_a_process(command: Command, here: Path) -> int:
    """Start the command in a process of its own and return its number; what it prints goes to a file."""
    child = os.fork()
    if child:
        return child
    code = 70
    try:
        with (here / "words").open("w", encoding="utf-8") as told:
            sys.stdout = sys.stderr = told
            told_words = [word.replace("HERE", str(here)) for word in command.words]
            code = main(["--project", str(here / "archive"), *told_words])
    finally:
        os._exit(code)


def _words_of(here: Path) -> str:
    return (here / "words").read_text(encoding="utf-8")


def _state(here: Path) -> Bytes:
    """Return every file that somebody would see, with its bytes; not what is kept aside."""
    return {
        path.relative_to(here).as_posix(): path.read_bytes()
        for path in here.rglob("*")
        if path.is_file() and path.name != "words" and not any(map(_is_aside, path.relative_to(here).parts))
    }


def _is_aside(name: str) -> bool:
    return name.startswith((".ashbook", ".intake-", ".start-")) or name.endswith((".ashbook-new", ".ashbook-pack"))


def _difference(state: Bytes, wanted: Bytes) -> str:
    names = sorted(name for name in state.keys() | wanted.keys() if state.get(name) != wanted.get(name))
    return f"{names[:5]} differ"
