"""One plain sentence that says what came of a firing, for feeds and for machines that show previews."""

from __future__ import annotations

from builder.archive.archive import Record
from builder.settings import Settings
from builder.ware.outcome import Verdict


def outcome_words(record: Record, settings: Settings) -> str:
    """Say the method, how hot it became and what came out: `Open fire, hottest 812 °C. 3 of 4 pieces succeeded.`"""
    return f"{settings.methods[record.firing.method].name}{_peak(record)}. {_pieces(record)}"


def _peak(record: Record) -> str:
    peak = record.figure("peak_c")
    if peak is None or peak.value is None:
        return ""
    return f", hottest {'at least ' if peak.at_least else ''}{peak.value:.0f} °C"


def _pieces(record: Record) -> str:
    counts = dict.fromkeys(Verdict, 0)
    for judged in record.pieces:
        counts[judged.success] += judged.piece.count
    judged_pieces = counts[Verdict.YES] + counts[Verdict.NO]
    unjudged = counts[Verdict.UNJUDGED]
    apart = f" {unjudged} not judged." if unjudged else ""
    if not judged_pieces:
        return apart.strip()
    noun = "piece" if judged_pieces == 1 else "pieces"
    return f"{counts[Verdict.YES]} of {judged_pieces} {noun} succeeded.{apart}"
