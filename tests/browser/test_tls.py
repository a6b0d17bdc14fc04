"""From the README to two phones: its commands as they stand, nginx with TLS, two browsers."""

import os
import re
import shlex
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import expect

from seed_demo.club import PASSPHRASE
from tests.browser.phone import Phone
from tests.browser.strip import all_sent, mark, open_lesson
from tests.patience import SECONDS, until
from tests.ports import free_port
from tests.test_going_live import answers

pytestmark = [pytest.mark.browser, pytest.mark.thorough]
README = Path(__file__).parent.parent.parent / "README.md"
INSTALLED = ("python3 -m venv", "~/cue-ladder/program/bin/pip", "export PATH")


def commands():
    """The README's commands after the install, which the continuous test does by `make`."""
    (block,) = re.findall(r"```sh\n(.*?)```", README.read_text("utf-8"), re.S)
    lines = block.splitlines()
    assert [line for line in lines if line.startswith(INSTALLED)] == lines[:3]
    return lines[3:]


def with_apt(program, package):
    """Whether a program is there, installed where that is possible."""
    if not shutil.which(program) and os.getuid() == 0 and shutil.which("apt-get"):
        subprocess.run(
            ["apt-get", "install", "-y", "-qq", package], capture_output=True, check=False
        )
    return shutil.which(program)


@pytest.fixture
def laptop(nginx, tmp_path):
    """The laptop after the README's commands; only ports, the name's port and `sudo` differ."""
    if not with_apt("certutil", "libnss3-tools"):
        pytest.skip("certutil (libnss3-tools) is needed to let a browser trust the certificate")
    secure, inner = free_port(), free_port()
    env = {**os.environ, "HOME": str(tmp_path)}
    told, running = "", None
    try:
        for line in commands():
            line = line.removeprefix("sudo ").replace("nginx ", f"{nginx} ", 1)
            line = line.replace("--port 8000", f"--port {inner}")
            line = line.replace("https://salle.local", f"https://salle.local:{secure}")
            ports = f"--port {secure} --inner {inner}"
            line = line.replace("--name salle.local", f"--name salle.local {ports}")
            line = line.replace("cueladder ", f"{shlex.quote(sys.executable)} -m cueladder.cli ", 1)
            if " serve " in line:
                running = subprocess.Popen(["sh", "-c", f"exec env {line}"], env=env)
                until(lambda: answers(inner), "the server")
                continue
            done = subprocess.run(["sh", "-c", line], env=env, capture_output=True, text=True)
            assert done.returncode == 0, (line, done.stderr)
            told += done.stdout
        yield f"https://salle.local:{secure}", re.search(r"Open (https\S+/setup#\S+)", told)[1]
    finally:
        if running is not None:
            running.terminate()
            running.wait(timeout=SECONDS)
        pid = tmp_path / "cue-ladder/tls/nginx.pid"
        if pid.exists():
            os.kill(int(pid.read_text()), signal.SIGTERM)


@pytest.fixture
def trusting(chromium, laptop, tmp_path):
    """Makes phones that trust the laptop's authority, as after step 2."""
    made = []

    def make(name):
        home = tmp_path / name
        store = home / ".pki/nssdb"
        store.mkdir(parents=True)
        authority = tmp_path / "cue-ladder/tls/authority.crt"
        nss = ["certutil", "-d", f"sql:{store}"]
        subprocess.run([*nss, "-N", "--empty-password"], check=True)
        subprocess.run([*nss, "-A", "-t", "C,,", "-n", "salle", "-i", authority], check=True)
        one = Phone(chromium, home / "profile", laptop[0],
                    arguments=("--host-resolver-rules=MAP salle.local 127.0.0.1",),
                    env={**os.environ, "HOME": str(home)})  # fmt: skip
        made.append(one)
        return one

    yield make
    for one in made:
        one.close()


def test_two_phones_are_paired_and_sync_through_tls_by_the_readme_alone(laptop, trusting):
    address, link = laptop
    page = trusting("first").start_blank()
    page.goto(link)
    page.get_by_label("Name of the club").fill("Halle Nord Fencing Circle")
    page.get_by_label("Your name").fill("Ansgar Vell")
    page.get_by_label("Passphrase").fill(PASSPHRASE)
    page.get_by_role("button", name="Set up").click()
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.goto(f"{address}/fencers/new")
    page.get_by_label("Nickname").fill("Mila")
    page.get_by_label("Foil").check()
    page.get_by_test_id("save-fencer").click()
    expect(page).not_to_have_url(re.compile("/new$"))

    page.goto(f"{address}/settings")
    page.get_by_role("link", name="Devices, and pairing a phone").click()
    page.get_by_test_id("pair-make").click()
    pairing = page.get_by_test_id("shown-address").input_value()
    assert pairing.startswith(f"{address}/pair#")
    second = trusting("second").start_blank()
    second.goto(pairing)
    expect(second.get_by_role("heading", name="Today")).to_be_visible()
    second.evaluate("navigator.serviceWorker.ready.then(() => true)")

    # the first phone marks without a network, then sends
    page.goto(address)
    expect(page.get_by_role("button", name="Start: Mila")).to_be_visible()
    page.context.set_offline(True)
    page.reload()
    open_lesson(page, "sixte-late")
    mark(page, "correct", 3)
    page.context.set_offline(False)
    page.reload()
    all_sent(page)

    # the second sees it, and what it marks itself arrives too
    second.goto(address)
    expect(second.get_by_role("button", name="Start: Mila")).to_be_visible()
    open_lesson(second, "octave-late")
    mark(second, "late", 2)
    all_sent(second)
    asked = "fetch('/api/standings?after=0').then((answer) => answer.json())"
    assert len(page.evaluate(asked)["standings"]) == 2
    assert all(cookie["secure"] for cookie in second.context.cookies())
