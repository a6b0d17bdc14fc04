"""The wheel: installed where there is nothing else, it makes the demo club and takes a mark."""

import ast
import socket
import subprocess
import sys
import zipfile
from importlib.metadata import distribution, distributions
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from playwright.sync_api import expect

from seed_demo.club import COACHES, PASSPHRASE
from tests.browser.phone import Guest
from tests.browser.server import call, cookie_of
from tests.browser.strip import all_sent, mark, open_lesson, sign_in
from tests.patience import SECONDS
from tests.ports import free_port

pytestmark = [pytest.mark.browser, pytest.mark.thorough]
ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    words = ["-m", "hatchling", "build", "--target", "wheel", "--directory", str(folder)]
    subprocess.run([sys.executable, *words], cwd=ROOT, check=True, capture_output=True)
    (made,) = folder.glob("*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """An environment with the wheel and what it says it needs, and nothing besides: no Node either.

    What it needs is taken from here, file by file: an import that is not declared finds nothing.
    """
    home = tmp_path_factory.mktemp("empty") / "env"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", home], check=True)
    python = home / "bin" / "python"
    pip = [sys.executable, "-m", "pip", "--python", python, "install", "-qq", "--no-deps"]
    subprocess.run([*pip, "--no-index", wheel], check=True)
    (site,) = home.glob("lib/python*/site-packages")
    (program,) = distributions(path=[str(site)])
    for name in needed(program.requires):
        here = distribution(name)
        for top in {file.parts[0] for file in here.files} - {"..", "__pycache__"}:
            (site / top).symlink_to(here.locate_file(top))
    return home


def needed(lines):
    """The names of all that these requirements lead to, extras that are not asked for left out."""
    found, ahead = set(), [one for one in map(Requirement, lines) if asked_for(one, "")]
    while ahead:
        one = ahead.pop()
        for extra in {"", *one.extras} - {extra for name, extra in found if name == one.name}:
            found.add((one.name, extra))
            theirs = map(Requirement, distribution(one.name).requires or ())
            ahead += [more for more in theirs if asked_for(more, extra)]
    return {canonicalize_name(name) for name, _ in found}


def asked_for(requirement, extra):
    return requirement.marker is None or requirement.marker.evaluate({"extra": extra})


def test_the_wheel_holds_the_front_end_and_the_demo_and_nothing_of_the_study(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    assert "cueladder/static/index.html" in names
    assert "cueladder/static/worker.js" in names
    assert "seed_demo/make.py" in names
    assert not [name for name in names if name.startswith(("seed_demo/study", "tests", "frontend"))]


def test_whatever_a_module_of_the_wheel_imports_is_declared(installed):
    (site,) = installed.glob("lib/python*/site-packages")
    wanted = {
        top
        for package in ("cueladder", "seed_demo")
        for path in (site / package).rglob("*.py")
        for top in imported(path)
    }
    assert {"flask", "segno", "matplotlib"} <= wanted
    ask = "import importlib.util as u, sys; print([n for n in sys.argv[1:] if not u.find_spec(n)])"
    words = [installed / "bin" / "python", "-c", ask, *sorted(wanted)]
    done = subprocess.run(words, capture_output=True, text=True, check=True, env={})
    assert done.stdout == "[]\n"


def imported(path):
    """The top names of what a file imports, at its head or within a function."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.module.split(".")[0]


def test_an_install_from_the_wheel_makes_the_demo_club_without_node_and_takes_a_mark(
    installed, chrome, tmp_path
):
    port = free_port()
    words = ["demo", "--weeks", "2", "--port", str(port), "--data", str(tmp_path / "demo")]
    env = {"PATH": str(installed / "bin"), "HOME": str(tmp_path), "PYTHONUNBUFFERED": "1"}
    running = subprocess.Popen(
        [installed / "bin" / "cueladder", *words], cwd=tmp_path, env=env, stdout=subprocess.PIPE
    )
    phone = Guest(chrome, f"http://localhost:{port}")
    try:
        told = [running.stdout.readline().decode() for _ in range(4)]
        assert f"Open           {phone.url}\n" in told[2], told
        page = phone.start()
        sign_in(page, COACHES[0]["name"], PASSPHRASE)
        lesson = open_lesson(page)
        mark(page, "correct", 3)
        all_sent(page)
        assert len(marks_stored(phone, cookie_of(page), lesson)) == 3
        page.goto(f"{phone.url}/guide/")
        expect(page.get_by_role("heading", level=1)).to_be_visible()
    finally:
        phone.close()
        running.terminate()
        running.wait(timeout=SECONDS)
        running.stdout.close()


def marks_stored(phone, cookie, lesson):
    """The marks of a lesson, as the server tells them."""
    kept, page = [], {"next": 0, "more": True}
    while page["more"]:
        page = call(phone, cookie, f"/api/events?after={page['next']}&limit=1000")
        kept += page["events"]
    return [one for one in kept if one["type"] == "cue_marked" and one["lesson"] == lesson]


def test_a_taken_port_is_told_with_what_to_do(installed, tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        words = [installed / "bin" / "cueladder", "demo", "--port", str(port)]
        done = subprocess.run(words, cwd=tmp_path, capture_output=True, text=True, timeout=SECONDS)
    assert done.returncode == 1
    assert f"Port {port} is taken" in done.stderr
    assert "--port 8370" in done.stderr
    assert not list(tmp_path.iterdir())
