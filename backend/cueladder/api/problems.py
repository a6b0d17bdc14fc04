"""Errors as RFC 9457 problem details."""

from __future__ import annotations

from copy import deepcopy
from http import HTTPStatus
from typing import Any

from flask import Flask, Response, json
from flask_smorest import Api
from marshmallow import ValidationError, fields
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import HTTPException

from ..rules import RuleError
from ..rules.said import Said, later, say
from ..store.db.engine import db
from ..store.problems import Clash, Missing, Refused
from .replies.base import Reply

TITLES = {
    400: later("Not understood"),
    401: later("Sign in"),
    403: later("Not allowed"),
    404: later("Not found"),
    405: later("Not possible here"),
    409: later("Clash"),
    413: later("Too much at once"),
    415: later("Not JSON"),
    422: later("Please correct"),
    429: later("Too many tries"),
    500: later("Our fault"),
    503: later("Busy"),
}
# Details for errors that carry no message of our own.
DETAILS = {
    400: later("The body is not JSON."),
    404: later("There is nothing at this address."),
    405: later("This address does not take this method."),
    413: later("The body is over 1 MB. Send fewer events at once."),
    415: later("Send the body as application/json."),
    429: later("Wait a minute, then try again."),
}

# marshmallow's own messages that the catalogues translate.
TRANSLATED = {
    later("Missing data for required field."),
    later("Unknown field."),
    later("Field may not be null."),
    later("Not a valid string."),
    later("Not a valid integer."),
    later("Not a valid number."),
    later("Not a valid boolean."),
    later("Invalid input type."),
}


class ProblemSchema(Reply):
    """Problem details; ``errors`` by field where fields are wrong."""

    absent = ("errors",)

    type = fields.String()
    title = fields.String()
    status = fields.Integer()
    detail = fields.String()
    errors = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))


class ProblemApi(Api):
    """An Api that replies with problem details and documents them."""

    ERROR_SCHEMA = ProblemSchema
    DEFAULT_ERROR_RESPONSE_NAME = "Problem"

    def init_app(self, app: Flask, **kwargs: Any) -> None:
        """Register the handler for all exceptions."""
        super().init_app(app, **kwargs)
        app.register_error_handler(Exception, self.handle)

    def _register_responses(self) -> None:
        """Document errors of every status as problem details."""
        content = {"application/problem+json": {"schema": ProblemSchema}}
        named = {status.name: status.phrase for status in HTTPStatus if status >= 400}
        for name, phrase in {**named, "Problem": "Any error"}.items():
            response = {"description": phrase, "content": content}
            self.spec.components.response(name, deepcopy(response), lazy=True)

    def handle_http_exception(self, error: HTTPException) -> Response:
        """Turn an HTTP error into a problem."""
        return self.handle(error)

    def handle(self, error: Exception) -> Response:
        """Turn any exception into a problem; rolls back the session."""
        db.session.rollback()
        if isinstance(error, HTTPException):
            if error.code is None or error.response is not None:
                return error.get_response()
            return _http(error)
        if isinstance(error, RuleError):
            return problem(422, say("The drill cannot be used."), {error.field: [error.message]})
        if isinstance(error, ValidationError):
            return problem(422, say("Some fields are wrong."), flat(error.messages))
        if isinstance(error, RecursionError):
            return problem(400, say("The body is nested too deeply."))
        if isinstance(error, Refused):
            status = 404 if isinstance(error, Missing) else 409 if isinstance(error, Clash) else 422
            named = {error.field: [error.message]} if error.field else None
            return problem(
                status, error.message if named is None else say("Please correct it."), named
            )
        self._app.logger.error("unforeseen error", exc_info=error)
        if isinstance(error, OperationalError):
            return problem(503, say("The database does not answer. Try again in a moment."))
        return problem(
            500, say("Something went wrong on the server. Nothing was changed; try again.")
        )


def problem(status: int, detail: str, errors: dict[str, list[str]] | None = None) -> Response:
    """A problem details response."""
    body: dict[str, Any] = {
        "type": "about:blank",
        "title": say(TITLES.get(status, "Problem")),
        "status": status,
        "detail": detail,
    }
    if errors:
        body["errors"] = errors
    return Response(json.dumps(body), status, mimetype="application/problem+json")


def flat(messages: Any, path: str = "") -> dict[str, list[str]]:
    """Flatten nested messages to ``{"a.b[0]": [message]}``."""
    if isinstance(messages, list):
        return {path or "body": [_translated(message) for message in messages]}
    if not isinstance(messages, dict):
        return {path or "body": [_translated(messages)]}
    found: dict[str, list[str]] = {}
    for name, said in messages.items():
        if name in ("json", "query", "_schema") and (not path or name == "_schema"):
            deeper = path
        else:
            deeper = f"{path}[{name}]" if isinstance(name, int) else f"{path}.{name}".strip(".")
        found |= flat(said, deeper)
    return found


def _translated(message: Any) -> str:
    """Our own message as it is; a library's translated where we have it."""
    if isinstance(message, Said):
        return message
    return say(message) if message in TRANSLATED else str(message)


def _http(error: HTTPException) -> Response:
    data = getattr(error, "data", None) or {}
    errors = flat(data["messages"]) if "messages" in data else None
    own = errors is None and error.description != type(error).description
    detail = say("Some fields are wrong.") if errors else say(DETAILS.get(error.code or 500, ""))
    if own and error.code not in (415, 429):
        detail = error.description or ""
    answer = problem(error.code or 500, detail, errors)
    for name, value in error.get_headers():
        if name.lower() not in ("content-type", "content-length"):
            answer.headers[name] = value
    return answer
