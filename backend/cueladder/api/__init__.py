"""The HTTP API: one blueprint and its schemas a resource."""

from __future__ import annotations

from flask import Flask

from . import (
    accounts,
    bookings,
    charts,
    club,
    devices,
    drills,
    events,
    fencers,
    guard,
    health,
    imports,
    links,
    overview,
    pictures,
    plan,
    records,
    rules,
    session,
    standings,
    story,
)
from .limits import limiter
from .problems import ProblemApi

RESOURCES = (
    session,
    accounts,
    club,
    fencers,
    imports,
    records,
    links,
    drills,
    charts,
    events,
    standings,
    devices,
    health,
    rules,
    story,
    overview,
    pictures,
    plan,
    bookings,
)


def init_app(app: Flask) -> None:
    """Register the resources, the guard and the one error shape."""
    limiter.init_app(app)
    api = ProblemApi(app)
    api.spec.components.security_scheme(
        "cookie", {"type": "apiKey", "in": "cookie", "name": guard.COOKIE}
    )
    app.before_request(guard.check_header)
    app.after_request(guard.renew_cookie)
    for resource in RESOURCES:
        api.register_blueprint(resource.blueprint)
