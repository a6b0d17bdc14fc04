"""Answering with a plot."""

from __future__ import annotations

import hashlib

from flask import Response, request

# a plot opened by itself loads and runs nothing
POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def drawn(svg: bytes) -> Response:
    """A plot of records, which the browser keeps and revalidates by its ETag."""
    answer = open_plot(svg)
    answer.headers["Cache-Control"] = "private, no-cache"
    answer.set_etag(hashlib.sha256(svg).hexdigest()[:32])
    return answer.make_conditional(request)


def open_plot(svg: bytes) -> Response:
    """A plot about nobody."""
    answer = Response(svg, mimetype="image/svg+xml")
    answer.headers["Content-Security-Policy"] = POLICY
    return answer
