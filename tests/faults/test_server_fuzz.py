"""Whatever is sent, the answer is no 5xx, and every error is a problem with words."""

import pytest

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.faults.server_fuzz import CHEAP, Fuzz

pytestmark = pytest.mark.thorough


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_made_up_calls_never_end_in_a_server_error(tmp_path):
    app = create_app({"DATA": tmp_path, "DATABASE_URL": None, **CHEAP})
    with app.app_context():
        migrate.up()
    fuzz = Fuzz(app, seed=3)
    fuzz.run(80, most=10)
    with app.app_context():
        db.session.remove()
        db.engine.dispose()
    assert fuzz.failed == []
    assert fuzz.statuses[200] > 10
    assert fuzz.statuses[422] > 10
