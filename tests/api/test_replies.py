"""Every route says what it replies; the tests' own browser holds each reply to it."""

import pytest

from tests.make_api_types import TYPES, generated
from tests.replies import check_reply, operations


def test_every_route_declares_its_reply(app):
    found = operations(app)
    assert len(found) > 60
    bare = []
    for route, operation in found.items():
        good = {s: r for s, r in operation.get("responses", {}).items() if s.startswith("2")}
        for status, reply in good.items():
            told = [one["schema"] for one in reply.get("content", {}).values()]
            if not (status == "204" and not told) and not (told and all(told)):
                bare.append((*route, status))
        if not good:
            bare.append(route)
    assert bare == []


def test_a_reply_with_a_field_that_is_not_declared_is_found(app, club):
    answer = club.browser.get("/api/session")
    answer.set_data(answer.get_data(as_text=True).replace('"device"', '"machine"'))
    with pytest.raises(AssertionError, match="does not reply as declared"):
        check_reply(app, answer)


def test_a_reply_with_a_value_of_another_type_is_found(app, club):
    answer = club.browser.get("/api/coaches")
    answer.set_data(answer.get_data(as_text=True).replace("true", '"true"'))
    with pytest.raises(AssertionError, match="coaches/0/active"):
        check_reply(app, answer)


def test_the_phones_types_of_replies_are_those_of_the_api():
    assert TYPES.read_text() == generated(), "run `make api-types`"
