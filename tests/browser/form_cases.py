"""Made-up forms: what people type into each kind of field, the awkward often, from one seed."""

from __future__ import annotations

import random
from typing import Any

AWKWARD = (
    "NO", "yes", "null", "~", "12:30", "0600", "1e3", "2026-05-02", "---", "...", "a: b", "- x", "# c", "a #b", "key:",
    "> y", "| z", "? q", "&x", "*y", "!z", "%d", "@", "`t`", "{a}", "[b]", '"q"', "it's", "a\\b", "“curly”",
    "  two  spaces ", "tab\there", "ü ö", "e\u0301", "zero\u200bwidth", "turned\u202ex", "\ufeffmarked",
    "line\u2028ends", "bell\x07", "no\u00a0break", "日本語", "pot 🔥🏺", "unknown", "-", "x" * 161, "x" * 241,
)  # fmt: skip
_NUMBERS = (
    "6", "6.5", "0,5", "1,450", "1.450", "1,5", "12 345", "1/4", "1 1/2", "¼", "about 5", "5 to 7", "5-7", "5 ± 1",
    "between 5 and 7", "-3", "−3", "1:20", "12:30", "abc", "", "5 mm", "5 kg", "5 oz", "5 kilo", "9999999999", "1e5",
    "٣", "5 6", "5 or so", "~5", "2 lb 3", "1 h 20", "5 mmm", "0", "0.001", "100000", "5 °", "5 degrees", "5 degC",
    "unknown", "?", "“5”", "5 °C/min", "1.2.3", "1,2,3", "12,345.6", "12.345,6", "5 to", "5 ,", "5;", "5 (approx)",
    "0.95", "95", "0.5 to 0.6", "1'000", "5 parsecs", "5 grms", "5°", "5'", '5"', "x" * 130,
    "over 5", ">5 mm", "max 20 %", "7 85 °C", "1/5", "5 mm,", "about 5;",
)  # fmt: skip
_COUNTS = ("1", "4", "0", "four", "3 pots", "1.5", "-1", "500", "501", "150", "99", "x", "“4”", "none", "unknown")
_COLOURS = ("10YR 8/2", "N 5/", "10YR 18/2", "10yr 8-2", "red", "5 r 4 2", "7.5YR 7/4", "2.5,Y 8/2", "unknown")
_REFUSED = frozenset({"unknown", "-", "---", "...", "x" * 161, "x" * 241})
"""Words that some field does not take."""
_SOUND = tuple(text for text in AWKWARD if text not in _REFUSED)
_CONES = ("018", "18", "Cone 05", "05½", "1", "022", "04", "w0")


_TOGETHER = {
    "dry": {"mass": "812 g", "length": "95 mm"},
    "soaked": {"mass": "921 g"},
    "hung": {"mass": "505 g"},
    "wet": {"length": "100 mm"},
    "fired": {"length": "93 mm"},
}
"""Values that must go together: weighings of one pot, marks on one tile."""


class Typist:
    """Fills in forms at random."""

    def __init__(self, rules: dict[str, Any], seed: int) -> None:
        self.rules = rules
        self.dice = random.Random(seed)

    def form(self, awkward: float) -> dict[str, Any]:
        """Fill in one form; `awkward` is the share of values that people get wrong."""
        self.awkward = awkward
        fields = [field for field in self.rules["fields"] if field["name"] not in ("readings", "photos")]
        values = self.group(fields, 0.35, required=1.0 if awkward < 0.5 else 0.97)
        if self.dice.random() < 0.5:
            readings = next(field for field in self.rules["fields"] if field["name"] == "readings")
            probes = next(field for field in readings["fields"] if field["name"] == "probes")["fields"]
            own = [field for field in probes if field["name"] not in ("column", "calibrated")]
            named = [self.group(own, 0.3, required=1.0) for _ in range(self.dice.randint(1, 2))]
            cells = "  ".join("-" for _ in named)
            rows = [
                f"0:00:00  {cells}  lit",
                *(f"0:0{minute}:00  {'  '.join(['200 °C'] * len(named))}" for minute in (1, 2)),
            ]
            values["readings"] = {"time": "elapsed", "probes": named, "rows": rows}
        return values

    def group(self, fields: list[dict[str, Any]], share: float, required: float) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for field in fields:
            if self.dice.random() > (required if field.get("required") else share):
                continue
            if field["kind"] == "group":
                found[field["name"]] = self.group(field["fields"], 0.6, required)
            elif field["kind"] == "list":
                count = self.dice.randint(1, 3)
                found[field["name"]] = [self.group(field["fields"], 0.3, required) for _ in range(count)]
            else:
                found[field["name"]] = self.value(field)
        return found

    def value(self, field: dict[str, Any]) -> str | list[str]:
        pick, wrong = self.dice.choice, self.dice.random() < self.awkward
        kind = field["kind"]
        if kind == "word":
            words = [word for word in field["words"] if self.awkward or word != "mV"]
            return [pick(words)] if field.get("many") else str(pick(words))
        if kind == "words":
            cones = "cones" in field["name"]
            many = [f"w{number}" for number in range(30)]
            if not self.awkward:
                return [pick(_SOUND)] if not cones else ["018"] if "down" in field["name"] else ["017"]
            return (
                many if wrong and self.dice.random() < 0.05 else [pick(_CONES if cones else AWKWARD) for _ in range(2)]
            )
        if kind == "quantity":
            return self.quantity(field, wrong)
        plain: dict[str, str] = {"date": "2026-05-02", "clock": "10:42", "licence": "CC0-1.0"}
        awkward = {"count": _COUNTS, "munsell": _COLOURS, "date": ("1850-01-01", "2026-12-31")}
        if kind in plain and not (wrong and kind in awkward):
            return plain[kind]
        if kind in awkward:
            return pick(awkward[kind]) if wrong else {"count": "4", "munsell": "10YR 8/2"}[kind]
        return pick(AWKWARD if self.awkward else _SOUND)

    def quantity(self, field: dict[str, Any], wrong: bool) -> str:
        units = [unit["symbol"] for unit in self.rules["kinds"][field["quantity"]]["units"]]
        if not wrong:
            if field["name"] in _TOGETHER:
                return _TOGETHER[field["name"]][field["quantity"]]
            bounds = field["bounds"]
            value = (bounds["usualLow"] + bounds["usualHigh"]) / 2
            return f"{value:.1f} {units[0]}".strip()
        unit = self.dice.choice(units)
        typed = self.dice.choice(_NUMBERS)
        if self.dice.random() < 0.5:
            typed = str(round(self.dice.uniform(0, 10 ** self.dice.randint(0, 5)), self.dice.randint(0, 2)))
        return f"{typed} {unit}".strip() if self.dice.random() < 0.8 else typed
