"""The command line; the server is run as a program."""

import os
import re
import signal
import subprocess
import sys
import urllib.request

import pytest
from click.testing import CliRunner

from cueladder.cli import main
from tests.patience import SECONDS, until
from tests.ports import free_port

ENV = {k: v for k, v in os.environ.items() if k not in ("DATABASE_URL", "CUELADDER_DATA")}


@pytest.fixture(autouse=True)
def _no_database_from_outside(monkeypatch):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    monkeypatch.delenv("CUELADDER_DATA", raising=False)


def command(folder, *words):
    return [sys.executable, "-m", "cueladder.cli", "--data", str(folder), *words]


def run(folder, *words):
    return CliRunner().invoke(main, ["--data", str(folder), *words])


def test_a_coach_is_added_to_a_new_club_with_the_starter_drills(tmp_path):
    words = ["coach", "add", "Odile", "--passphrase", "plain to subtle"]
    nowhere = run(tmp_path, *words)
    assert (nowhere.exit_code, nowhere.stderr) == (1, "Error: Say which club: --club NAME.\n")
    added = run(tmp_path, *words, "--club", "Salle Birkenhain", "--role", "head")
    assert re.fullmatch(
        r"Odile can sign in to Salle Birkenhain as head\. \d+ starter drills were added\.\n",
        added.stdout,
    ), added.stderr
    again = run(tmp_path, *words)
    assert again.stderr == "Error: name is taken: choose another\n"


def test_an_empty_database_gets_a_set_up_code_and_one_with_a_club_none(tmp_path):
    told = run(tmp_path, "setup", "--address", "https://club.example/")
    code = re.search(r"Set-up code: (\S+)", told.stdout)[1]
    assert f"https://club.example/setup#{code}" in told.stdout
    run(tmp_path, "coach", "add", "Odile", "--passphrase", "plain to subtle", "--club", "Salle")
    refused = run(tmp_path, "setup")
    assert (refused.exit_code, len(refused.stderr.splitlines())) == (1, 1)
    assert "There is a club here already" in refused.stderr


def test_the_database_goes_up_and_down(tmp_path):
    assert run(tmp_path, "db", "upgrade").stdout == "The database is up to date.\n"
    assert run(tmp_path, "db", "downgrade", "base").stdout == "Done.\n"


@pytest.mark.thorough
def test_the_server_answers_and_a_taken_port_is_told_in_one_line(tmp_path):
    port = free_port()
    server = subprocess.Popen(
        command(tmp_path, "serve", "--port", str(port)),
        env=ENV,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        # a shell that runs all this in the background has Ctrl-C ignored
        preexec_fn=_heed_ctrl_c,
    )
    try:
        assert until(lambda: _answer(f"http://127.0.0.1:{port}/api/health"), "the server")
        again = command(tmp_path, "serve", "--port", str(port))
        second = subprocess.run(again, env=ENV, capture_output=True, text=True, check=False)
        assert second.returncode == 1
        assert len(second.stderr.splitlines()) == 1
        assert f"127.0.0.1:{port}" in second.stderr
        assert "Try --port" in second.stderr
    finally:
        server.send_signal(signal.SIGINT)
        server.communicate(timeout=SECONDS)
    assert server.returncode == 0


@pytest.mark.parametrize(
    ("module", "unneeded"),
    [
        ("cueladder.cli", ("flask", "sqlalchemy", "numpy", "scipy.stats", "matplotlib")),
        ("cueladder.app", ("scipy.stats", "scipy.sparse", "matplotlib")),
    ],
)
def test_what_draws_and_computes_is_loaded_only_when_it_is_used(module, unneeded):
    listing = f"import {module}, sys; print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", listing], check=True, capture_output=True, text=True
    ).stdout.split()
    assert module in loaded
    assert set(unneeded) & set(loaded) == set()


def _heed_ctrl_c():
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def _answer(url):
    try:
        with urllib.request.urlopen(url, timeout=SECONDS) as answer:
            return answer.read()
    except OSError:
        return None
