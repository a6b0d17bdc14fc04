"""The application: settings, database, the API, the built front end."""

from __future__ import annotations

from typing import Any

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from . import api, pages, site
from .config import settings
from .jsontext import FastJson
from .store.db.engine import db, prepare_engine
from .store.db.migrate import migrate
from .store.fencers.remnants import Wiper


def create_app(config: dict[str, Any] | None = None) -> Flask:
    """Make the app.

    Args:
        config: settings that override the defaults and the environment; see `config.settings`.
    """
    app = Flask(__name__, static_folder=None)
    app.config.from_mapping(settings(config))
    app.json = FastJson(app)
    if app.config["PROXIES"]:
        hops = app.config["PROXIES"]
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)
    db.init_app(app)
    prepare_engine(app)
    migrate.init_app(app, db)
    app.extensions["wiper"] = Wiper(app)
    api.init_app(app)
    pages.init_app(app)
    site.init_app(app)
    return app
