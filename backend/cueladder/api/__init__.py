"""The HTTP API: one blueprint and its schemas a resource."""

from __future__ import annotations

from flask import Flask

from . import (
    accesslog,
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
    learning,
    lessons,
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
from .beyond import draws
from .limits import limiter
from .problems import ProblemApi
from .replies.base import tuple_property

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
    lessons,
    standings,
    devices,
    health,
    rules,
    story,
    overview,
    pictures,
    plan,
    bookings,
    learning,
    draws,
)


def init_app(app: Flask) -> None:
    """Register the resources, the guard and the error handler."""
    limiter.init_app(app)
    api = ProblemApi(app)
    api.ma_plugin.converter.add_attribute_function(tuple_property)
    api.spec.components.security_scheme(
        "cookie", {"type": "apiKey", "in": "cookie", "name": guard.COOKIE}
    )
    app.before_request(guard.check_text)
    app.before_request(guard.check_header)
    app.after_request(guard.renew_cookie)
    app.after_request(accesslog.write_line)
    for resource in RESOURCES:
        api.register_blueprint(resource.blueprint)
