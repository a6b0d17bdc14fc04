"""Known faults in what we depend on: `python -m tests.audit` (or `make audit`).

Asks pip-audit and npm, which ask their advisory services over the network. Exit status: 0 where
every package was answered for and none is at fault, 1 for a known fault, 3 where nothing, or not
everything, was checked: that is no pass, and is said in the last line.
"""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import dataclass
from importlib.metadata import distributions
from pathlib import Path
from typing import Any

FRONTEND = Path(__file__).parent.parent / "frontend"
CLEAN, AT_FAULT, UNCHECKED = 0, 1, 3
PYTHON = ["pip_audit", "--format", "json", "--skip-editable", "--progress-spinner", "off"]
NODE = ["npm", "audit", "--json"]


@dataclass(frozen=True)
class Audit:
    """What was asked about, how much of it was answered, and what is known to be at fault."""

    of: str
    asked: int
    answered: int
    faults: tuple[str, ...]

    @property
    def told(self) -> str:
        """One line, and one a fault."""
        head = f"{self.of}: {self.answered} of {self.asked} packages checked"
        if self.answered == 0:
            head = f"{self.of}: NOTHING CHECKED (no advisory service answered)"
        elif self.answered < self.asked:
            head += "; NOT CHECKED: the rest (no advisory service answered for them)"
        return "\n".join([head, *(f"  {fault}" for fault in self.faults)])


def read_pip(report: dict[str, Any], asked: int) -> Audit:
    """What pip-audit's JSON says; a skipped package, or a missing report, is not checked."""
    packages = report.get("dependencies", [])
    checked = [one for one in packages if "skip_reason" not in one]
    faults = tuple(
        f"{one['name']} {one['version']}: {fault['id']}"
        + (f", mended in {', '.join(fault['fix_versions'])}" if fault["fix_versions"] else "")
        for one in checked
        for fault in one["vulns"]
    )
    return Audit("Python", max(asked, len(packages)), len(checked), faults)


def read_npm(report: dict[str, Any], asked: int) -> Audit:
    """What npm's JSON says; a reply without `vulnerabilities` checked nothing."""
    if "vulnerabilities" not in report:
        return Audit("JavaScript", asked, 0, ())
    found = report["vulnerabilities"].items()
    faults = tuple(f"{name} {one['range']}: {one['severity']}" for name, one in found)
    return Audit("JavaScript", asked, asked, faults)


def run() -> list[Audit]:
    """Ask both, over the network; a program that fails without a report has checked nothing."""
    pip = subprocess.run([sys.executable, "-m", *PYTHON], capture_output=True, text=True)
    npm = subprocess.run(NODE, cwd=FRONTEND, capture_output=True, text=True)
    lock = json.loads((FRONTEND / "package-lock.json").read_text())
    return [
        read_pip(json.loads(pip.stdout or "{}"), len(list(distributions()))),
        read_npm(json.loads(npm.stdout or "{}"), len(lock["packages"]) - 1),
    ]


def verdict(audits: list[Audit]) -> tuple[int, str]:
    """An exit status, and what it means."""
    if any(audit.faults for audit in audits):
        return AT_FAULT, "Known faults: raise what is named above."
    if all(audit.answered == 0 for audit in audits):
        return UNCHECKED, "Nothing was checked. This run says nothing about what we depend on."
    if any(audit.answered < audit.asked for audit in audits):
        return UNCHECKED, "Not everything was checked. This run is no pass."
    return CLEAN, "No known faults."


def main() -> None:
    """Print what is known and end with the verdict."""
    audits = run()
    status, meaning = verdict(audits)
    print("\n".join([*(audit.told for audit in audits), meaning]))
    sys.exit(status)


if __name__ == "__main__":
    main()
