"""`python -m seed_demo`: make the invented club of today and serve it on localhost."""

from __future__ import annotations

import argparse
import shutil
import socket
import sys
from datetime import date
from pathlib import Path

from cueladder.app import create_app

from .club import CLUB, PASSPHRASE
from .make import make


def main() -> None:
    """Make today's demo database unless it is there, say where it is, and serve it."""
    asked = _arguments()
    if not asked.no_serve and not _is_free(asked.port):
        sys.exit(f"Port {asked.port} is taken: stop what uses it, or run `make demo PORT=8370`.")
    folder = Path(asked.data) / asked.today.isoformat()
    note = folder / "sign-in.txt"
    app = create_app({"DATA": str(folder)})
    if not note.exists():
        print("Making the invented club and its season (about ten seconds) …", flush=True)
        shutil.rmtree(folder)
        app = create_app({"DATA": str(folder)})
        with app.app_context():
            made = make(asked.today)
        note.write_text(
            f"{CLUB}: {made.events} events on {made.started} drills\n\n"
            f"  Sign in as     {made.coach}\n"
            f"  Passphrase     {PASSPHRASE}\n"
            f"  Progress page  {{address}}/p/{made.token}\n",
            encoding="utf-8",
        )
    address = f"http://localhost:{asked.port}"
    print(f"\n  Open           {address}\n")
    print(note.read_text(encoding="utf-8").format(address=address), flush=True)
    if not asked.no_serve:
        _serve(app, asked.port)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m seed_demo", description=__doc__)
    parser.add_argument("--port", type=int, default=8360)
    parser.add_argument("--data", default="demo-data", help="folder of the demo databases")
    parser.add_argument("--today", type=date.fromisoformat, default=date.today())  # noqa: DTZ011
    parser.add_argument("--no-serve", action="store_true", help="make the database only")
    return parser.parse_args()


def _is_free(port: int) -> bool:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True


def _serve(app: object, port: int) -> None:
    from waitress import serve

    serve(app, host="127.0.0.1", port=port, threads=8)


if __name__ == "__main__":
    main()
