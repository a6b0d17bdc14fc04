"""Pages for fencers and parents: made on the server, without scripts, opened by a link."""

from __future__ import annotations

from flask import Flask

from .progress import blueprint


def init_app(app: Flask) -> None:
    """Serve the pages."""
    app.register_blueprint(blueprint)
