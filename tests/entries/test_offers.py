"""A new entry offers its other fields as comments: each is good as it stands, once its mark is taken away."""

from __future__ import annotations

import html
import re
from pathlib import Path

from builder.entries.compose import FirstLines, entry_text
from builder.entries.fields import FIELDS
from builder.entries.find import EntryFile, entry_at
from builder.examine import check_all
from builder.pages.reference_pages import fields_page
from builder.settings_file import load_settings
from tests.intake.zips import jpeg

PROJECT = Path(__file__).parents[2]


def test_every_field_that_a_new_entry_offers_passes_the_check_as_it_is_offered(tmp_path: Path) -> None:
    settings, _ = load_settings(PROJECT)
    assert settings is not None
    offered = entry_text(FirstLines("Jar", "2026-05-02", "wren", "open-fire", (("jar", "sound"),)))
    folder = tmp_path / "2026-05-02-jar"
    folder.mkdir()
    (folder / "drawn.jpg").write_bytes(jpeg())
    text = re.sub(r"^( *)# (?!More)", r"\1", offered, flags=re.MULTILINE)
    (folder / "entry.md").write_text(text, encoding="utf-8")
    entry = entry_at(folder, tmp_path)
    assert isinstance(entry, EntryFile)
    assert next(check_all([entry], settings)) == ()
    assert all(re.search(rf"^{field.name}:", text, re.MULTILINE) for field in FIELDS if field.name != "readings")


def test_the_entry_to_copy_on_the_page_of_fields_is_sound(tmp_path: Path) -> None:
    settings, _ = load_settings(PROJECT)
    assert settings is not None
    _, template = re.findall(r"<pre class=\"example\"><code>(.*?)</code>", fields_page(settings).lead, re.DOTALL)
    (folder := tmp_path / "2026-05-02-jar").mkdir()
    (folder / "entry.md").write_text(html.unescape(template), encoding="utf-8")
    entry = entry_at(folder, tmp_path)
    assert isinstance(entry, EntryFile)
    assert next(check_all([entry], settings)) == ()
