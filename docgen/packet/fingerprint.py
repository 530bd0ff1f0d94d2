"""The short mark on each page that tells two printings apart: same mark, same paper."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict

import docgen
from docgen.layout.model import Layout

DIGITS = 10  # of 16 values each: two of a thousand packets are alike by chance once in two million times
GROUP = 5  # digits read out in one breath


def fingerprint(
    source: bytes,
    layout: Layout,
    options: tuple[str, ...] = (),
    *,
    included: Mapping[str, bytes] | None = None,
    version: str = docgen.__version__,
) -> str:
    """Return ten hexadecimal digits in two groups, made from everything that shaped the packet.

    That is the file's bytes, the files it includes by name, the whole layout, the options and the program's version.
    """
    parts = [
        b"docgen",
        version.encode(),
        source,
        json.dumps(asdict(layout), sort_keys=True, default=str).encode(),
        json.dumps(list(options)).encode(),
    ]
    for name, data in sorted((included or {}).items()):
        parts += [name.encode(), data]
    digest = hashlib.sha256()
    for part in parts:
        digest.update(len(part).to_bytes(8, "big"))  # so that no byte can move from one part to the next unseen
        digest.update(part)
    text = digest.hexdigest()[:DIGITS]
    return f"{text[:GROUP]}-{text[GROUP:]}"
