"""Serve a given build of the front end from a process of its own. Not a test module.

Usage: python -m tests.browser.serve DATA_FOLDER PORT STATIC_FOLDER
"""

import sys

import waitress

from cueladder.app import create_app
from cueladder.store.db import migrate

if __name__ == "__main__":
    data, port, static = sys.argv[1:]
    app = create_app({"DATA": data, "STATIC": static})
    with app.app_context():
        migrate.up()
    waitress.serve(app, host="127.0.0.1", port=int(port), threads=8, ident=None, _quiet=True)
