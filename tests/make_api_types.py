"""Generate the phone's types of the server's replies from the API: `make api-types`."""

from __future__ import annotations

import json
import subprocess
import tempfile
from pathlib import Path

from cueladder.app import create_app
from tests.replies import document

FRONTEND = Path(__file__).parent.parent / "frontend"
TYPES = FRONTEND / "src" / "device" / "api-types.ts"


def generated() -> str:
    """The types as they should stand in `TYPES`."""
    with tempfile.TemporaryDirectory() as folder:
        said = json.dumps(document(create_app({"DATA": folder, "DATABASE_URL": None})))
    types = _run(["node", "api-types/make.mjs"], said)
    return _run(["npx", "--no-install", "biome", "format", f"--stdin-file-path={TYPES}"], types)


def _run(command: list[str], given: str) -> str:
    return subprocess.run(
        command, input=given, capture_output=True, text=True, check=True, cwd=FRONTEND
    ).stdout


if __name__ == "__main__":
    TYPES.write_text(generated())
