"""The check's own words with gaps, for the write-up form: `⟦raw⟧ has no unit, and nothing says which one is meant.`

A message is not written twice. Each is asked of the check about something made up, and comes out with a gap where
that stood; the form's script fills the gap with what was typed.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from builder.base import quantity_faults as faults
from builder.base.numerals import NumeralFault
from builder.base.quantity_faults import QuantityFault
from builder.base.units import KINDS, Kind, Unit
from builder.checks.check import check_parsed
from builder.checks.fault import Fault
from builder.entries.fields import FIELDS, Field
from builder.entries.find import EntryFile
from builder.entries.front_matter import parse_entry
from builder.settings import Settings

Json = str | int | float | bool | None | list["Json"] | dict[str, "Json"]

Words = dict[str, Json]
"""A message with gaps: its code, message and help."""


def gapped(fault: Fault | QuantityFault, gaps: Mapping[str, str]) -> Words:
    """Take a fault's words, with gaps for what is written in them."""
    return {"code": fault.code, "message": _gapped(fault.message, gaps), "help": _gapped(fault.help, gaps)}


def _gapped(words: str, gaps: Mapping[str, str]) -> str:
    for written, gap in gaps.items():
        words = words.replace(written, gap)
    return words


_ANY = Kind("any", "⟦words⟧", (Unit("⟦first⟧", ()), Unit("⟦second⟧", ())), "⟦example⟧")
_DEGREES = Kind("temperature", "⟦words⟧", (Unit("°C", ()),), "⟦example⟧")
_TIME = Kind("time", "⟦words⟧", (Unit("min", ()),), "⟦example⟧")
_ONE = Kind("any", "⟦words⟧", (Unit("⟦first⟧", ()),), "⟦example⟧")
_WRITTEN = "⟦written⟧"


def quantity_words() -> Json:
    """What is said of a quantity that cannot be read, by what is wrong with it."""
    numeral = {
        code: NumeralFault(code, _WRITTEN, ("⟦one⟧", "⟦other⟧"))
        for code in ("quantity-ambiguous", "quantity-too-large", "quantity-none")
    }
    raw = f"{_WRITTEN}⟦rest⟧"
    return {
        "tooLong": gapped(faults.too_long("x" * 1234, _ANY), {"1,234": "⟦length⟧"}),
        "strangeDigit": gapped(faults.strange_digit("٣", 0), {"`٣`": "`⟦digit⟧`", "`3`": "`⟦mended⟧`"}),
        "noNumber": gapped(faults.no_number("⟦raw⟧", _ANY, 0), {}),
        "ledIn": gapped(faults.led_in("⟦over⟧⟦kept⟧", 0, len("⟦over⟧")), {}),
        "nothing": gapped(faults.no_number("", _ANY, 0), {}),
        "ambiguous": gapped(faults.bad_numeral(raw, _ANY, numeral["quantity-ambiguous"], 0), {}),
        "tooLarge": gapped(faults.bad_numeral(raw, _ANY, numeral["quantity-too-large"], 0), {}),
        "badNumber": gapped(faults.bad_numeral(raw, _ANY, numeral["quantity-none"], 0), {}),
        "clock": gapped(faults.clock(_WRITTEN, _ANY, 1, 2, 0), {}),
        "clockTime": gapped(faults.clock(_WRITTEN, _TIME, 111, 222, 0), {"111": "⟦hours⟧", "222": "⟦minutes⟧"}),
        "noUnit": gapped(faults.no_unit("⟦raw⟧", _ONE, 0), {"`⟦raw⟧ ⟦first⟧`": "⟦choice⟧"}),
        "shareOfOne": gapped(
            faults.no_unit("0.2", KINDS["share"], 0),
            {"`20 %`": "`⟦share⟧ %`", "`0.2 %`": "`⟦raw⟧ %`", "`0.2`": "`⟦raw⟧`"},
        ),
        "whichDegrees": gapped(
            faults.bad_unit("⟦number⟧ degrees", _DEGREES, "degrees", len("⟦number⟧ ")), {"`degrees`": "`⟦unit⟧`"}
        ),
        "otherKind": gapped(
            faults.bad_unit("⟦number⟧ kg", _ANY, "kg", len("⟦number⟧ ")),
            {"`kg`": "`⟦unit⟧`", KINDS["mass"].words: "⟦others⟧"},
        ),
        "unknownUnit": gapped(
            _unknown("⟦unit⟧", KINDS["mass"]),
            {
                KINDS["mass"].words: "⟦words⟧",
                "kg, g, mg, t, lb or oz": "⟦choice⟧",
                KINDS["mass"].example: "⟦example⟧",
            },
        ),
        "meantUnit": gapped(
            _unknown("kgz", KINDS["mass"]),
            {"kgz": "⟦unit⟧", "`⟦number⟧ kg`": "`⟦number⟧ ⟦symbol⟧`", KINDS["mass"].words: "⟦words⟧"},
        ),
        "oneOfUnits": gapped(
            _unknown("⟦unit⟧", KINDS["share"]), {KINDS["share"].words: "⟦words⟧", KINDS["share"].example: "⟦example⟧"}
        ),
        "leftOver": gapped(faults.left_over("⟦kept⟧⟦over⟧", len("⟦kept⟧"), len("⟦kept⟧")), {}),
    }


def _unknown(words: str, kind: Kind) -> QuantityFault:
    start = len("⟦number⟧ ")
    return faults.bad_unit(f"⟦number⟧ {words}", kind, words, start)


# Everything else is asked of the check itself


def said_words(settings: Settings) -> Json:
    """What is said of all but quantities, by what is wrong; each asked of the check about a made-up entry."""
    ask = _Asker(settings)
    long_text = "x" * 9999
    weighed = "weighed: {dry: 812.25 g, soaked: %s g}"
    marks = "marks: {wet: 100.25 mm, fired: %s mm}"
    return {
        "tooLong": ask.top(
            f"place: {long_text}", "too-long", {"9,999": "⟦length⟧", "240": "⟦longest⟧", "place": "⟦name⟧"}
        ),
        "notRecorded": ask.top("fuel: {form: unknown}", "not-recorded", {"`unknown`": "⟦shown⟧", "`form`": "`⟦name⟧`"}),
        "manyWords": ask.top(
            f"fuel: {{wood: [{', '.join(f'w{number}' for number in range(77))}]}}",
            "too-many",
            {"77": "⟦count⟧", "wood": "⟦name⟧"},
        ),
        "curly": ask.top("lit: “oak”", "curly-quotes", {"`“oak”`": "⟦shown⟧", "oak": "⟦inside⟧"}),
        "count": ask.piece("count: ⟦raw⟧", "count-form", {"`⟦raw⟧`": "⟦shown⟧", "count": "⟦name⟧"}),
        "countMeant": ask.piece(
            "count: four", "count-form", {"`four`": "⟦shown⟧", "`count: 4`": "`⟦name⟧: ⟦figures⟧`"}
        ),
        "countFromNought": ask.top(
            "weather: {dry_days: ⟦raw⟧}", "count-form", {"`⟦raw⟧`": "⟦shown⟧", "dry_days": "⟦name⟧"}
        ),
        "munsell": ask.piece("colour: ⟦raw⟧", "munsell", {"`⟦raw⟧`": "⟦shown⟧"}),
        "munsellMeant": ask.piece("colour: 10YR 8-2", "munsell", {"`10YR 8-2`": "⟦shown⟧", "`10YR 8/2`": "`⟦mended⟧`"}),
        "munsellScales": ask.piece("colour: 10YR 18/2", "munsell", {"`10YR 18/2`": "⟦shown⟧"}),
        "year": ask.day("1234-05-02", "date-calendar", {"1234": "⟦year⟧"}),
        "probeTwice": ask.probes(["{name: WALL}", "{name: wall}"], "probe-twice", {"wall": "⟦name⟧"}),
        "probeType": ask.probes(["{name: wall, unit: mV}"], "probe-type", {}),
        "paintNone": ask.top("surface: {paint: none}", "paint-none", {"`held`": "⟦shown⟧"}, piece="paint: held"),
        "soakedOrder": ask.piece(weighed % "700.25", "weighed-order", {"812.25 g": "⟦dry⟧", "700.25 g": "⟦soaked⟧"}),
        "soakedMuch": ask.piece(weighed % "1400", "unlikely", {"72 %": "⟦share⟧ %"}),
        "hungOrder": ask.piece(
            "weighed: {dry: 812.25 g, soaked: 900 g, hung: 850.25 g}",
            "weighed-order",
            {"812.25 g": "⟦dry⟧", "850.25 g": "⟦hung⟧"},
        ),
        "marksOrder": ask.piece(
            marks % "110.25",
            "marks-order",
            {"100.25 mm": "⟦length⟧", "110.25 mm": "⟦later⟧", "fired": "⟦laterName⟧", "wet": "⟦name⟧"},
        ),
        "marksMuch": ask.piece(marks % "60.15", "unlikely", {"40 %": "⟦share⟧ %"}),
        "coneUnknown": ask.top("witness: {cones_down: [⟦raw⟧]}", "cone-unknown", {"`⟦raw⟧`": "⟦shown⟧"}),
        "coneMeant": ask.top("witness: {cones_down: [18]}", "cone-unknown", {"`18`": "⟦shown⟧", "`018`": "`⟦meant⟧`"}),
        "conesSame": ask.top(
            "witness: {cones_down: [018], cones_standing: [018]}", "cones-contradict", {"018": "⟦down⟧"}
        ),
        "conesOrder": ask.top(
            "witness: {cones_down: [017], cones_standing: [019]}",
            "cones-contradict",
            {"017": "⟦down⟧", "019": "⟦standing⟧"},
        ),
        "manyPieces": ask.whole(
            "pieces: [" + ", ".join(f"{{name: p{number}, survival: sound, count: 99}}" for number in range(11)) + "]",
            "too-many",
            {"1,089": "⟦count⟧"},
        ),
        "missing": ask.missing(),
    }


class _Asker:
    """Puts one made-up line into an otherwise sound entry, and takes what the check says of it."""

    def __init__(self, settings: Settings) -> None:
        self.settings = settings
        potter, method = next(iter(settings.potters), "nobody"), next(iter(settings.methods), "nothing")
        self.head = {"title": "Jar", "date": "2026-05-02", "potter": potter, "method": method}

    def top(self, line: str, code: str, gaps: Mapping[str, str], piece: str = "") -> Words:
        more = f", {piece}" if piece else ""
        return self.whole(f"{line}\npieces: [{{name: jar, survival: sound{more}}}]", code, gaps)

    def piece(self, line: str, code: str, gaps: Mapping[str, str]) -> Words:
        return self.whole(f"pieces: [{{name: jar, survival: sound, {line}}}]", code, gaps)

    def probes(self, probes: list[str], code: str, gaps: Mapping[str, str]) -> Words:
        listed = ", ".join(probes)
        return self.top(f"readings: {{time: elapsed, probes: [{listed}], file: log.csv}}", code, gaps)

    def day(self, written: str, code: str, gaps: Mapping[str, str]) -> Words:
        return self.whole("pieces: [{name: jar, survival: sound}]", code, gaps, {**self.head, "date": written})

    def missing(self) -> Json:
        """What is said where a required field is absent, by its path."""
        found: dict[str, Json] = {}
        for field in FIELDS:
            if field.required:
                kept = {name: value for name, value in self.head.items() if name != field.name}
                pieces = "" if field.name == "pieces" else "pieces: [{name: jar, survival: sound}]"
                found[field.name] = self.whole(pieces, "required-field", {}, kept, field.name)
            found |= self._missing_inside(field, field.name)
        return found

    def _missing_inside(self, field: Field, path: str) -> dict[str, Json]:
        found: dict[str, Json] = {}
        for inner in field.fields:
            at = f"{path}.{inner.name}"
            if inner.required:
                others = ", ".join(
                    f"{one.name}: {one.example}" for one in field.fields if one is not inner and one.required
                )
                others = others or next((f"{one.name}: {one.example}" for one in field.fields if one is not inner), "")
                found[at] = self.whole(_nested(path, others), "required-field", {}, field=at)
            found |= self._missing_inside(inner, at)
        return found

    def whole(
        self,
        lines: str,
        code: str,
        gaps: Mapping[str, str],
        head: Mapping[str, str] | None = None,
        field: str = "",
    ) -> Words:
        first = "\n".join(f"{name}: {value}" for name, value in (self.head if head is None else head).items())
        text = f"---\n{first}\n{lines}\n---\n"
        entry = EntryFile("2026-05-02-jar", Path("nowhere"), Path("nowhere/entry.md"), "entry.md")
        problems = check_parsed(entry, parse_entry(text, entry.file), self.settings).problems
        for problem in problems:
            if problem.code == code and (not field or _without_numbers(problem.field) == field):
                message, help_ = _gapped(problem.message, gaps), _gapped(problem.help, gaps)
                return {"code": code, "message": message, "help": help_}
        raise ValueError(f"the check says nothing of {code} about:\n{text}{problems}")


def _nested(path: str, inside: str) -> str:
    """Write fields inside the group or list of a path, with the groups around it."""
    names = path.split(".")
    written = f"{{{inside}}}"
    for number in range(len(names), 0, -1):
        here = ".".join(names[:number])
        written = f"[{written}]" if _is_list(here) else written
        written = f"{names[number - 1]}: {written}"
        if number > 1:
            written = f"{{{written}}}"
    return written


def _is_list(path: str) -> bool:
    fields, found = FIELDS, None
    for name in path.split("."):
        found = next(field for field in fields if field.name == name)
        fields = found.fields
    return found is not None and found.kind == "list"


def _without_numbers(path: str) -> str:
    return "".join(part.partition("]")[2] if at else part for at, part in enumerate(path.split("[")))
