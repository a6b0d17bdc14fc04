"""Sign-in, codes and devices against the model.

Ten thousand steps: `python -m tests.faults.access_model`.
"""

import pytest

from cueladder.app import create_app
from cueladder.limits import limiter
from cueladder.store.access import accounts, sessions
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.faults.access_model import CHEAP, walk

pytestmark = pytest.mark.thorough


@pytest.fixture
def app(request, tmp_path, monkeypatch):
    """An app without limits on tries, on a database of its own."""
    url = request.getfixturevalue("bare_postgres_url") if request.param != "sqlite" else None
    made = create_app({"DATA": tmp_path, "DATABASE_URL": url, **CHEAP})
    monkeypatch.setattr(limiter, "enabled", False)
    with made.app_context():
        migrate.up()
        yield made
        db.session.remove()
        db.engine.dispose()


def test_at_each_step_everyone_is_in_who_may_be_and_nobody_else(app):
    assert walk(app, 150, each=30) >= 150


@pytest.mark.parametrize("app", ["sqlite"], indirect=True)
def test_a_server_that_forgets_to_sign_out_is_found_out(app, monkeypatch):
    """The model itself, tried on a server at fault: a new passphrase leaves other sign-ins be."""
    monkeypatch.setattr(accounts, "sign_out_everywhere", lambda *_, **__: None)
    monkeypatch.setattr(sessions, "sign_out_everywhere", lambda *_, **__: None)
    with pytest.raises(Exception) as found:
        walk(app, 2000, each=50, shrink=False)
    assert "assert" in str(found.value) or "Assertion" in repr(found.value)
