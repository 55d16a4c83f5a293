"""The codes of problems with sources: the published data of other groups that an archive is built from."""

from __future__ import annotations

from builder.base.code import Code
from builder.base.problem import Severity

_E, _W, _N = Severity.ERROR, Severity.WARNING, Severity.NOTE

SOURCE_CODES: tuple[Code, ...] = (
    Code(
        "source-missing", _E,
        "A source holds no published archive; the rest of the site is built without it.",
        "Name the folder of a published site, its `data` folder, or the zip that `ashbook pack` made.",
        "sources: {hill-potters: ../hill-potters}", "sources: {hill-potters: ../hill-potters/site}",
    ),
    Code(
        "source-form", _E,
        "A source was published in a form that this program does not read.",
        "Bring the older of the two programs up to date, and publish that archive again.",
    ),
    Code(
        "source-words", _E,
        "A group's published settings hold words that cannot be shown: too long, or with characters that nobody sees.",
        "Ask that group to correct them in its site_config.yml and to publish again.",
    ),
    Code(
        "source-entry", _E,
        "Among a source's published entries lies something that is none.",
        "Copy the source again, or ask its group to publish again.",
    ),
    Code(
        "source-place", _N,
        "A source tells a place more exactly than this archive does, so the place is left out here.",
        "Nothing need be done; `coordinates` under `places` in site_config.yml decides it.",
    ),
    Code(
        "source-firing-twice", _W,
        "One fire came from two archives, word for word; it is shown and counted once.",
        "Nothing need be done, or leave one of the two sources out.",
    ),
)  # fmt: skip
