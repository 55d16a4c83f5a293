"""Old notes: what stands in a table becomes entries, what does not stand there is not made up."""

from __future__ import annotations

from datetime import date, datetime, time
from pathlib import Path

import openpyxl
import pytest

from builder.base.intake_codes import INTAKE_CODES
from builder.commands.cli import main
from builder.entries.find import find_entries
from builder.examine import examine
from builder.intake.headings import TARGETS, guess
from builder.intake.old_table import NotATable, read_table
from builder.settings_file import load_settings
from tests.commands.archives import write_archive
from tests.intake.test_accept import tree

TABLE = """\
Firing no;Date;Potter;Title;Method;Air temp (°F);Wall (mm);Temper;Pot;Result;Kiln temp;Notes
1;02/05/2024;Wren Oddie;Pale jar: first;open-fire;57;6;sherd, sand;jar;ok;780;Windy
1;;;;;;;;bowl;cracked;;Bowl on its side
2;03/05/2024;tam;NO;Open fire;14 °C;1/4 in;;bowl;souned;n/a;
3;04/05/2024;tam;Bowl;open-fire;?;;;bowl;;;
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return write_archive(tmp_path / "archive", 0)


def import_table(project: Path, *words: str | Path) -> int:
    return main(["--project", str(project), "import-table", *map(str, words)])


def write_table(project: Path, text: str = TABLE) -> Path:
    path = project.parent / "old.csv"
    path.write_text(text, encoding="utf-8")
    return path


def decide(project: Path, *changes: tuple[str, str]) -> Path:
    """Write the mapping file, and correct it as a keeper would."""
    table = project.parent / "old.csv"
    assert import_table(project, table) == 0
    mapping = project.parent / "old.mapping.yml"
    text = mapping.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    mapping.write_text(text, encoding="utf-8")
    return mapping


DECIDED = (
    ("dates: as written", "dates: day first"),
    ('"ok":', '"ok": sound'),
    ('"souned":', '"souned": sound'),
    ('"?"', "leave out"),
)


def test_the_first_run_writes_a_mapping_file_and_no_entry(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = write_table(project)
    assert import_table(project, table) == 0
    told = capsys.readouterr().out
    assert "Kiln temp  ->  ?" in told
    assert "No entry was written yet." in told
    written = (project.parent / "old.mapping.yml").read_text(encoding="utf-8")
    assert '  "Air temp (°F)":\n    field: weather.air\n    unit: "°F"\n' in written
    assert 'firing: ["Firing no"]' in written
    assert '"souned":  # once; did you mean sound?' in written
    assert tree(project) == []


def test_a_mapping_file_is_never_written_over(project: Path) -> None:
    table = write_table(project)
    mapping = decide(project, *DECIDED)
    before = mapping.read_bytes()
    import_table(project, table, "--dry-run")
    import_table(project, table)
    assert mapping.read_bytes() == before


def test_a_dry_run_tells_every_row_with_its_column_and_writes_nothing(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = write_table(project)
    decide(project)
    assert import_table(project, table, "--dry-run") == 1
    told = capsys.readouterr()
    assert "old.csv:2: error [date-form] date: Column `Date`: `02/05/2024`" in told.out
    assert "old.csv:2: error [not-listed] pieces[1].survival: Column `Result`: `ok`" in told.out
    assert "old.csv:4: error [not-listed] pieces[1].survival: Column `Result`: `souned`" in told.out
    assert "old.csv:5: error [required-field] pieces[1].survival:" in told.out
    assert "Column `Kiln temp` has no field; 1 of its cells is left out." in told.out
    assert "0 of 3 firings could be written" in told.err
    assert [name for name in tree(project) if name.endswith(".md")] == []


def test_sound_rows_become_entries_that_pass_check_and_others_stay_out(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = write_table(project)
    decide(project, *DECIDED)
    assert import_table(project, table) == 1
    assert "2 of 3 firings were written" in capsys.readouterr().err
    assert main(["--project", str(project), "check"]) == 0
    assert (project / "content/firings/2024-05-02-pale-jar-first/entry.md").read_text(encoding="utf-8") == (
        "---\n"
        "# From old.csv, rows 2, 3.\n"
        'title: "Pale jar: first"\n'
        "date: 2024-05-02\n"
        "potter: wren\n"
        "method: open-fire\n"
        "weather:\n"
        "  air: 57 °F\n"
        "clay:\n"
        "  temper:\n"
        "    - sherd\n"
        "    - sand\n"
        "  wall: 6 mm\n"
        "pieces:\n"
        "  - name: jar\n"
        "    survival: sound\n"
        "  - name: bowl\n"
        "    survival: cracked\n"
        "---\n"
        "Windy\n"
        "\n"
        "Bowl on its side\n"
    )


def test_a_cell_keeps_its_own_unit_and_a_missing_cell_stays_missing(project: Path) -> None:
    table = write_table(project)
    decide(project, *DECIDED)
    import_table(project, table)
    settings, _ = load_settings(project)
    assert settings is not None
    found = {entry.slug: examine(entry, settings).measured for entry in find_entries(project)[0]}
    second = found["2024-05-03-no"]
    assert second is not None
    firing = second.firing
    assert firing.title == "NO"
    assert firing.conditions["weather.air"].raw == "14 °C"  # type: ignore[union-attr]
    assert firing.conditions["clay.wall"].raw == "1/4 in"  # type: ignore[union-attr]
    assert set(firing.conditions) == {"weather.air", "clay.wall"}


def test_a_second_run_finds_the_same_entries_there_and_changes_nothing(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = write_table(project)
    decide(project, *DECIDED)
    import_table(project, table)
    entry = project / "content/firings/2024-05-03-no/entry.md"
    entry.write_text(entry.read_text(encoding="utf-8") + "Changed since.\n", encoding="utf-8")
    before = {path: path.read_bytes() for path in project.rglob("*.md")}
    capsys.readouterr()
    assert import_table(project, table) == 1
    told = capsys.readouterr()
    assert "1 was there already, word for word." in told.err
    assert "old.csv:4: error [firing-exists]" in told.out
    assert {path: path.read_bytes() for path in project.rglob("*.md")} == before


def test_rows_of_one_firing_that_disagree_are_told(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = write_table(
        project,
        "No,Date,Potter,Title,Method,Wind (km/h),Pot,Result\n"
        "1,2024-05-02,wren,Jar,open-fire,8,jar,sound\n"
        "1,2024-05-02,wren,Jar,open-fire,9,bowl,sound\n",
    )
    decide(project)
    assert import_table(project, table) == 1
    told = capsys.readouterr().out
    assert "old.csv:3: error [table-conflict] weather.wind: Column `Wind (km/h)` says `9 km/h`; row 2" in told
    assert [name for name in tree(project) if name.endswith(".md")] == []


def test_a_piece_a_row_without_a_number_of_the_firing_joins_by_date_and_title(project: Path) -> None:
    table = write_table(
        project,
        "Date,Title,Potter,Method,Piece,Survival\n"
        "2024-05-02,Jar,wren,open-fire,jar,sound\n"
        "2024-05-02,Jar,wren,open-fire,bowl,broken\n"
        "2024-05-02,Cup,wren,open-fire,cup,sound\n",
    )
    decide(project)
    assert import_table(project, table) == 0
    assert [entry.slug for entry in find_entries(project)[0]] == ["2024-05-02-cup", "2024-05-02-jar"]


def test_two_firings_of_a_day_with_one_title_get_a_folder_each(project: Path) -> None:
    rows = "".join(f"{n},2024-05-02,wren,Jar,open-fire,jar,sound\n" for n in (1, 2))
    table = write_table(project, f"No,Date,Potter,Title,Method,Pot,Result\n{rows}")
    decide(project)
    assert import_table(project, table) == 0
    assert [entry.slug for entry in find_entries(project)[0]] == ["2024-05-02-jar", "2024-05-02-jar-2"]


def test_what_holds_for_every_row_is_said_once_in_the_mapping_file(project: Path) -> None:
    table = write_table(project, "Nr,Day,Ware,Result\n7,2024-05-02,bowl,sound\n")
    always = 'always: {potter: wren, method: open-fire, title: "{Ware}, firing {Nr}", pieces.name: pot}'
    decide(project, ("always: {}", always))
    assert import_table(project, table) == 0
    text = (project / "content/firings/2024-05-02-bowl-firing-7/entry.md").read_text(encoding="utf-8")
    assert "title: bowl, firing 7\n" in text


def test_a_decimal_comma_stays_as_it_was_written(project: Path) -> None:
    table = write_table(
        project, "Date;Title;Potter;Method;Wood weight (kg);Pot;Result\n2024-05-02;Jar;wren;open-fire;14,5;jar;sound\n"
    )
    decide(project)
    assert import_table(project, table) == 0
    assert "mass: 14,5 kg\n" in (project / "content/firings/2024-05-02-jar/entry.md").read_text(encoding="utf-8")


def test_what_is_needed_and_has_no_column_is_sent_to_the_mapping_file(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write_table(project, "Date,Potter,Method,Pot\n2024-05-02,wren,,jar\n")
    decide(project)
    capsys.readouterr()
    assert import_table(project, project.parent / "old.csv", "--dry-run") == 1
    told = capsys.readouterr().out
    assert told.count("Give it a column in the mapping file, or write under `always`") == 2
    for line in ("title: `title` is missing", "pieces[1].survival: `survival` is missing"):
        assert line in told
    assert "Write `method:` and one of" in told


def test_a_number_that_can_be_read_in_two_ways_is_told(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = write_table(
        project, "Date;Title;Potter;Method;Wood weight (kg);Pot;Result\n2024-05-02;Jar;wren;open-fire;1.450;jar;sound\n"
    )
    decide(project)
    assert import_table(project, table) == 1
    assert "[quantity-ambiguous] fuel.mass: Column `Wood weight (kg)`" in capsys.readouterr().out


def test_a_table_whose_commas_begin_the_decimals_is_read_so_where_the_keeper_says_so(project: Path) -> None:
    """Worked by hand: 6,5 mm is six and a half; 1.450 g and 1,450 kg are the same mass; a date and a time stay."""
    table = write_table(
        project,
        "Date;Title;Potter;Method;Wall (mm);Wood weight (kg);Dry weight;Soaked weight;Lit at;Pot;Result;Notes\n"
        "2024-05-02;Jar 1,5;wren;open-fire;6,5;1,450;1.450 g;1.520,5 g;12:30;jar;sound;1,5 h late\n",
    )
    decide(project, ("numbers: as written", "numbers: decimal comma"))
    assert import_table(project, table) == 0
    text = (project / "content/firings/2024-05-02-jar-1-5/entry.md").read_text(encoding="utf-8")
    for line in ("wall: 6.5 mm", "mass: 1.4500 kg", "dry: 1450 g", "soaked: 1520.5 g", 'lit: "12:30"', "1,5 h late"):
        assert line in text, line
    assert main(["--project", str(project), "check"]) == 0


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (("numbers: as written", "numbers: decimal coma"), "is not a choice here"),
        (("field: weather.air", "field: wether.air"), "Did you mean `weather.air`?"),
        (("field: surface.slip", "field: weather.air"), "given to"),
        (('unit: "°F"', 'unit: "mm"'), "is no unit of"),
        (("dates: as written", "dates: day frist"), "is not a choice here"),
        (('"Air (°F)":', '"Airr (°F)":'), "Did you mean `Air (°F)`?"),
        (("always: {}", "always: {potter: [wren]}"), "Here stands one value."),
        (("firing: [", "firing: [Fire, "), "The table has no column `Fire`."),
        (("dates:", "date:"), "Did you mean `dates`?"),
    ],
)
def test_a_mapping_file_that_cannot_be_followed_is_told_with_its_line(
    project: Path, wrong: tuple[str, str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    write_table(project, "Date,Air (°F),Slip\n2024-05-02,57,white\n")
    decide(project, wrong)
    capsys.readouterr()
    assert import_table(project, project.parent / "old.csv") == 1
    out = capsys.readouterr().out
    assert "old.mapping.yml:" in out
    assert "[table-mapping]" in out
    assert told in out


def test_a_spreadsheet_s_dates_times_and_shares_are_written_as_an_entry_writes_them(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["Date", "Lit", "Humidity", "Dried", "Title", "Sound?", None])
    sheet.append([date(2024, 5, 2), time(10, 42), 0.55, 9, "Jar", True])
    sheet.append([datetime(2024, 5, 3, 10, 42), None, 0.5, 9.5, " Two\n lines ", False])  # noqa: DTZ001
    sheet["C2"].number_format = "0%"
    path = tmp_path / "old.xlsx"
    book.save(path)
    table = read_table(path)
    assert table.headings == ("Date", "Lit", "Humidity", "Dried", "Title", "Sound?")
    assert [row.cells for row in table.rows] == [
        ("2024-05-02", "10:42", "55 %", "9", "Jar", "yes"),
        ("2024-05-03 10:42", "", "0.5", "9.5", "Two\nlines", "no"),
    ]
    assert [row.number for row in table.rows] == [2, 3]


def test_a_spreadsheet_is_imported_like_a_text(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    book = openpyxl.Workbook()
    book.active.append(["Date", "Title", "Potter", "Method", "Pot", "Result"])
    book.active.append([date(2024, 5, 2), "Jar", "wren", "open-fire", "jar", "sound"])
    book.active.append([date(2024, 5, 3), "Bowl", "wern", "open-fire", "bowl", "sound"])
    path = project.parent / "old.xlsx"
    book.save(path)
    assert import_table(project, path) == 0
    assert import_table(project, path) == 1
    assert "old.xlsx:3: error [not-listed] potter: Column `Potter`" in capsys.readouterr().out
    assert [entry.slug for entry in find_entries(project)[0]] == ["2024-05-02-jar"]


@pytest.mark.parametrize(
    ("name", "data", "told"),
    [
        ("a.csv", b"", "no rows below"),
        ("a.csv", b"Date,Title\n", "no rows below"),
        ("a.csv", b"Date,Date\n1,2\n", "Two columns are headed"),
        ("a.csv", b"Date,Title\n1,2,3\n", "more cells than there are headings"),
        ("a.csv", b"PK\x00\x00,x\n1,2\n", "not text"),
        ("a.xlsx", b"not a workbook", "cannot be opened"),
        ("a.pdf", b"%PDF", "not a table"),
        ("a.csv", b"A,B\n" + b"1,2\n" * 20_001, "more than 20,000 rows"),
    ],
)
def test_a_file_that_is_no_table_is_told_in_words(
    project: Path, name: str, data: bytes, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = project.parent / name
    path.write_bytes(data)
    with pytest.raises(NotATable, match=told):
        read_table(path)
    assert import_table(project, path) == 1
    assert "[table-file]" in capsys.readouterr().out


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16"])
@pytest.mark.parametrize("parter", [",", ";", "\t"])
def test_a_table_is_read_whatever_parts_its_columns(tmp_path: Path, parter: str, encoding: str) -> None:
    path = tmp_path / "old.csv"
    lines = [["Größe (mm)", "Title"], ["6", f'"a{parter}b"'], ["", ""], ["7", '"two\nlines"'], ["8"]]
    path.write_bytes("\r\n".join(parter.join(cells) for cells in lines).encode(encoding))
    table = read_table(path)
    assert table.headings == ("Größe (mm)", "Title")
    inside = "a b" if parter == "\t" else f"a{parter}b"
    assert [row.cells for row in table.rows] == [("6", inside), ("7", "two\nlines"), ("8", "")]
    assert [row.number for row in table.rows] == [2, 4, 6]


@pytest.mark.parametrize(
    ("heading", "path", "unit"),
    [
        ("Air temp (°F)", "weather.air", "°F"),
        ("Wind, km/h", "weather.wind", "km/h"),
        ("Humidity %", "weather.humidity", "%"),
        ("Days dried", "clay.dried", "days"),
        ("Weight of wood in kg", "fuel.mass", "kg"),
        ("potter", "potter", ""),
        ("RESULT", "pieces.survival", ""),
        ("pieces.carbon", "pieces.carbon", ""),
        ("Methid", "method", ""),
        ("Kiln temp", "?", ""),
    ],
)
def test_a_heading_is_matched_by_name_by_usual_words_and_by_likeness(heading: str, path: str, unit: str) -> None:
    found = guess(heading)
    assert (found.field, found.unit) == (path, unit)


@pytest.mark.parametrize("path", TARGETS)
def test_every_field_is_found_by_its_own_path(path: str) -> None:
    assert guess(path).field == path
    assert guess(path).sure


def test_every_code_of_a_table_is_shown_here() -> None:
    """The codes that this file's tests look for."""
    text = Path(__file__).read_text(encoding="utf-8")
    for code in INTAKE_CODES:
        if code.name.startswith("table-") and code.name != "table-column":
            assert f"[{code.name}]" in text
    assert "has no field; 1 of its cells is left out" in text
