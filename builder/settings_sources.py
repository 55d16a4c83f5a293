"""The part `sources` of the settings: other groups' archives whose published data becomes a part of this one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.base.located_yaml import Node, Scalar
from builder.settings import SourcePlace
from builder.settings_reader import KEY, SettingsReader

SOURCES = "sources"
_LONGEST_SOURCE = 30


def source_places(reader: SettingsReader, node: Node | None) -> Iterator[SourcePlace]:
    """Yield where the published data of other groups lies: `key: folder or zip`, or `key: {from: …, address: …}`."""
    for key, (scalar, value) in reader.group(node, SOURCES).items():
        path = f"{SOURCES}.{key}"
        if not KEY.match(key) or len(key) > _LONGEST_SOURCE:
            reader.fault(
                scalar.place,
                path,
                f"`{key}` also becomes a part of addresses, so it is one short plain word.",
                f"Use lower-case letters, digits and hyphens, {_LONGEST_SOURCE} at most: `hill-potters`.",
            )
        told = {} if isinstance(value, Scalar) else reader.group(value, path, ("from", "address"))
        items = {"from": value} if isinstance(value, Scalar) else {name: inner for name, (_, inner) in told.items()}
        where = reader.text(items.get("from"), f"{path}.from")
        if not where or re.match(r"[a-z][a-z0-9+.-]+://", where, re.IGNORECASE):
            reader.fault(
                value.place,
                f"{path}.from",
                f"`{where}` is on the web; a build asks nothing of other hosts." if where else "No place is named.",
                f"Copy that archive here and name it: `{key}: ../{key}/site`, or `{key}: ../{key}.zip`.",
            )
            continue
        address = reader.address(items["address"], f"{path}.address") if "address" in items else ""
        yield SourcePlace(key, where, address)
