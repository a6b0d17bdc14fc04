"""Build hook: puts the built front end into the wheel."""

import shutil
import subprocess
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class FrontEnd(BuildHookInterface):
    """Runs the front end's build unless it is there already, or the install is editable."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the front end; called by hatch before packing."""
        root = Path(self.root)
        if version == "editable" or (root / "backend/cueladder/static/index.html").exists():
            return
        npm = shutil.which("npm")
        if npm is None:
            raise RuntimeError("building Cue Ladder needs Node.js 20 or later with npm")
        frontend = root / "frontend"
        for words in (["ci", "--omit=dev", "--no-audit", "--no-fund"], ["run", "build"]):
            subprocess.run([npm, *words], cwd=frontend, check=True)  # noqa: S603
