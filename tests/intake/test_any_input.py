"""Whatever is handed over, taking it in ends in words or in entries that pass check; it never breaks."""

from __future__ import annotations

import csv
import io
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from builder.commands.cli import main
from builder.entries.find import FIRINGS
from builder.intake.headings import TARGETS, guess
from builder.intake.unpacking import unpack
from tests.commands.archives import write_archive
from tests.intake.zips import sound_files, write_zip

_STEADY = settings(max_examples=150, suppress_health_check=list(HealthCheck))


@_STEADY
@given(st.lists(st.tuples(st.integers(0, 5_000), st.integers(0, 255)), min_size=1, max_size=6), st.integers(0, 400))
def test_a_zip_with_any_bytes_changed_is_unpacked_inside_its_folder_or_refused(
    changes: list[tuple[int, int]], cut: int
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        path = write_zip(root / "jar.zip", sound_files())
        data = bytearray(path.read_bytes())
        for at, value in changes:
            data[at % len(data)] = value
        path.write_bytes(bytes(data[: len(data) - (cut if cut < 100 else 0)]))
        found, problems = unpack(path, root / "aside")
        assert (found is None) == bool(problems)
        assert {item.name for item in root.iterdir()} <= {"jar.zip", "aside"}
        assert found is None or found.parent == root / "aside"


_CELLS = st.one_of(
    st.just(""),
    st.sampled_from(
        "2024-05-02|wren|Wren Oddie|open-fire|sound|cracked|14 °C|57 °F|14|6 mm|1,5 kg|55 %|9 days|a: b|- x|NO|12:30|"
        "[x]|{y}|'q'|\"z|#h|---|&a|*b|!t|@x|%y|`|\\|0600|🏺|é|10YR 8/2|=1+1".split("|")
    ),
    st.text(max_size=30),
)
_HEADINGS = st.one_of(
    st.sampled_from(sorted(TARGETS)), st.sampled_from(["No", "Notes", "Air (°F)"]), st.text(max_size=12)
)


_NEEDED = ["date", "potter", "title", "method", "pieces.name", "pieces.survival"]


@st.composite
def _tables(draw: st.DrawFn) -> str:
    """Tables of any cells; in half of them each row is sound but for at most three columns."""
    sound = draw(st.booleans())
    more = draw(
        st.lists(_HEADINGS.filter(lambda name: name not in _NEEDED), max_size=3 if sound else 8, unique_by=str.strip)
    )
    rows = draw(st.lists(st.lists(_CELLS, min_size=len(more) + 6, max_size=len(more) + 6), min_size=1, max_size=4))
    if sound:
        rows = [[*row[:-6], "2024-05-02", "wren", row[-4] or "Jar", "open-fire", "jar", "sound"] for row in rows]
    out = io.StringIO()
    csv.writer(out).writerows([[*more, *_NEEDED], *rows])
    return out.getvalue()


@_STEADY
@given(_tables())
def test_any_table_gives_entries_that_pass_check_or_problems(text: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        project = write_archive(Path(folder) / "archive", 0)
        table = Path(folder) / "old.csv"
        table.write_text(text, encoding="utf-8")
        words = ["--project", str(project), "import-table", str(table)]
        main(words)
        main(words)
        assert main(["--project", str(project), "check"]) == 0
        root = project / FIRINGS
        if root.is_dir() and any(root.iterdir()):
            event("entries written")
        assert not [item.name for item in root.iterdir() if item.name.startswith(".")] if root.is_dir() else True


@given(st.text(max_size=60))
def test_any_heading_is_a_field_or_undecided(heading: str) -> None:
    assert guess(heading).field in {*TARGETS, "story", "?"}
