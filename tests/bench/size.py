"""How much script the strip needs, as the network carries it."""

from __future__ import annotations

import gzip
import re
from pathlib import Path


def strip_script(static: Path) -> int:
    """Bytes, gzipped, of every script that index.html loads before the strip can be used.

    Counted: the entry, the app it opens (which the page names, so that it is fetched at once),
    all they import, and the journal's worker; not the screens loaded later, the catalogue of
    another language, nor the service worker, which no first tap waits for.
    """
    seen: set[str] = set()
    queue = re.findall(r'(?:src|href)="/(assets/[^"]+\.js)"', (static / "index.html").read_text())
    while queue:
        name = queue.pop()
        if name in seen:
            continue
        seen.add(name)
        text = (static / name).read_text()
        queue += [f"assets/{n}" for n in re.findall(r'(?:from|import)\s*"\./([^"]+\.js)"', text)]
        queue += re.findall(r"/(assets/journal\.worker[^\"'`]+\.js)", text)
    return sum(len(gzip.compress((static / name).read_bytes(), 9)) for name in seen)
