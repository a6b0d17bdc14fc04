"""A line in the server's log for each way in that was taken or refused.

It names the route, the answer and, where one is signed in, the coach's number: no name, no address,
nothing that was sent.
"""

from __future__ import annotations

import logging

from flask import Response, g, request

log = logging.getLogger("cueladder.access")

REFUSED = (401, 403, 429)
# Signing in and out, and all that decides who may.
WAYS_IN = ("/api/session", "/api/setup", "/api/pairings", "/api/invitations", "/api/coaches",
           "/api/devices")  # fmt: skip


def write_line(answer: Response) -> Response:
    """Log an answer that let someone in, changed who may come in, or refused."""
    route = request.url_rule.rule if request.url_rule else "no route"
    decides = request.method != "GET" and route.startswith(WAYS_IN)
    if answer.status_code in REFUSED or decides:
        coach = g.actor.coach_id if "actor" in g else "nobody"
        level = logging.WARNING if answer.status_code in REFUSED else logging.INFO
        log.log(level, "%s %s: %s, by %s", request.method, route, answer.status_code, coach)
    return answer
