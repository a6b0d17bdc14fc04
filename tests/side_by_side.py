"""Run commands beside each other, and show each one's output as if they ran one after another.

Usage: python -m tests.side_by_side COMMAND...

The exit status says whether one of them failed; those that did are named at the end.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path


def run(commands: list[str], folder: Path) -> list[str]:
    """Run them all; those that failed."""
    running = []
    for number, command in enumerate(commands):
        with open(folder / str(number), "wb") as output:
            words = ["sh", "-c", command]
            running.append(subprocess.Popen(words, stdout=output, stderr=subprocess.STDOUT))
    for number, one in enumerate(running):
        _show(folder / str(number), one)
    return [command for command, one in zip(commands, running, strict=True) if one.returncode]


def _show(output: Path, running: subprocess.Popen[bytes]) -> None:
    """Pass on what a command has written, and what it still writes."""
    with open(output, "rb") as written:
        ended = False
        while not ended:
            ended = running.poll() is not None
            sys.stdout.buffer.write(written.read())
            sys.stdout.flush()
            time.sleep(0 if ended else 0.1)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as name:
        failed = run(sys.argv[1:], Path(name))
    for command in failed:
        print("FAILED:", command)
    sys.exit(1 if failed else 0)
