"""Replies held against the API's own description. Not a test module."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import jsonschema_rs
from flask import Flask

JSON = ("application/json", "application/problem+json")
DOCUMENT = "/api/openapi.json"


def document(app: Flask) -> dict[str, Any]:
    """The OpenAPI document."""
    return app.test_client().get(DOCUMENT).get_json()


def operations(app: Flask) -> dict[tuple[str, str], dict[str, Any]]:
    """(method, Flask's rule) → what the document says of it, for every route of the API."""
    paths = document(app)["paths"]
    found = {}
    for rule in app.url_map.iter_rules():
        if rule.rule.startswith("/api/") and rule.rule != DOCUMENT:
            for method in rule.methods - {"HEAD", "OPTIONS"}:
                path = rule.rule.replace("<", "{").replace(">", "}")
                found[method, rule.rule] = paths.get(path, {}).get(method.lower(), {})
    return found


def check_reply(app: Flask, answer: Any) -> None:
    """Fail where a JSON reply is not what its route declares."""
    request = answer.request
    if answer.status_code == 204 or answer.mimetype not in JSON:
        return
    if answer.status_code >= 400:
        validator = _problem(app)
    else:
        routes = app.url_map.bind("localhost")
        rule, _ = routes.match(request.path, method=request.method, return_rule=True)
        if rule.rule == DOCUMENT or not rule.rule.startswith("/api/"):
            return
        validator = _reply(app, request.method, rule.rule, str(answer.status_code))
    wrong = list(validator.iter_errors(answer.get_json()))
    said = "\n".join(f"  at {'/'.join(map(str, e.instance_path))}: {e.message}" for e in wrong[:5])
    assert not wrong, f"{request.method} {request.path} does not reply as declared:\n{said}"


@lru_cache
def _described(app: Flask) -> tuple[dict[str, Any], Any]:
    known = document(app)
    return known, operations(app)


@lru_cache
def _reply(app: Flask, method: str, rule: str, status: str) -> Any:
    known, routes = _described(app)
    schema = routes[method, rule]["responses"][status]["content"]["application/json"]["schema"]
    return _compiled(schema, known)


@lru_cache
def _problem(app: Flask) -> Any:
    known, _ = _described(app)
    return _compiled({"$ref": "#/components/schemas/Problem"}, known)


def _compiled(schema: dict[str, Any], known: dict[str, Any]) -> Any:
    return jsonschema_rs.Draft202012Validator(
        {**schema, "components": known["components"]}, validate_formats=True
    )
