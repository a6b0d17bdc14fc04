"""The recipes of the guide, run as they stand: nginx with TLS in front of gunicorn."""

import http.client
import json
import os
import re
import socket
import ssl
import subprocess
import sys
import uuid
from pathlib import Path

import pytest

from tests.patience import SECONDS, until
from tests.ports import free_port
from tests.store.club import PASSPHRASE

pytestmark = pytest.mark.thorough

GUIDE = Path(__file__).parent.parent / "backend" / "cueladder" / "pages" / "guide" / "going-live.md"


def part(language):
    """The guide's one part in this language."""
    (found,) = re.findall(rf"```{language}\n(.*?)```", GUIDE.read_text("utf-8"), re.S)
    return found


@pytest.fixture
def live(nginx, bare_postgres_url, tmp_path):
    """Starts what the guide says; tells the ports, the certificate and the set-up code."""
    certificates, static = tmp_path / "tls", tmp_path / "static"
    (static / "assets").mkdir(parents=True)
    (static / "index.html").write_text("<!doctype html><title>Cue Ladder</title>")
    (static / "sw.js").write_text("// worker")
    secure, plain, inner = free_port(), free_port(), free_port()
    env = {**os.environ, "DATABASE_URL": bare_postgres_url, "CUELADDER_PROXIES": "1"}
    command = [sys.executable, "-m", "cueladder.cli"]
    subprocess.run([*command, "--data", str(tmp_path), "certificate", "--name", "localhost"],
                   check=True, capture_output=True)  # fmt: skip
    subprocess.run([*command, "db", "upgrade"], env=env, check=True, capture_output=True)
    told = subprocess.run([*command, "setup", "--address", f"https://localhost:{secure}"],
                          env=env, check=True, capture_output=True, text=True).stdout  # fmt: skip
    config = tmp_path / "nginx.conf"
    config.write_text(_config(tmp_path, certificates, secure, plain, inner))
    start = re.search(r"ExecStart=\S+gunicorn (.*)", part("ini"))[1].replace('"', "")
    start = start.replace("127.0.0.1:8000", f"127.0.0.1:{inner}").replace("--workers 4", "-w 2")
    words = [w.replace("create_app()", f"create_app({{'STATIC': '{static}'}})")
             for w in start.split()]  # fmt: skip
    servers = [
        subprocess.Popen([sys.executable, "-m", "gunicorn", *words], env=env, cwd=tmp_path),
        subprocess.Popen([nginx, "-p", str(tmp_path), "-c", str(config)]),
    ]
    try:
        until(lambda: answers(inner), "the app")
        until(lambda: answers(secure), "nginx")
        code = re.search(r"Set-up code: (\S+)", told)[1]
        yield {"secure": secure, "plain": plain, "code": code, "folder": certificates}
    finally:
        for server in servers:
            server.terminate()
        for server in servers:
            try:
                server.wait(timeout=SECONDS)
            except subprocess.TimeoutExpired:
                server.kill()
                server.wait()


def _config(folder, certificates, secure, plain, inner):
    """The guide's part, with ports and folders of this test."""
    site = part("nginx")
    for written, here in {
        "listen 443 ssl": f"listen 127.0.0.1:{secure} ssl",
        "listen 80": f"listen 127.0.0.1:{plain}",
        "127.0.0.1:8000": f"127.0.0.1:{inner}",
        "/etc/ssl/cue-ladder": str(certificates),
        "club.example": "localhost",
    }.items():
        assert written in site, written
        site = site.replace(written, here)
    temporary = "".join(
        f"{kind}_temp_path {folder}/{kind};\n"
        for kind in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    user = "user root;" if os.getuid() == 0 else ""
    return (
        f"daemon off;\n{user}\npid {folder}/nginx.pid;\nerror_log {folder}/error.log;\n"
        f"events {{}}\nhttp {{\naccess_log {folder}/access.log;\n{temporary}{site}}}\n"
    )


def answers(port):
    """Whether someone listens there."""
    try:
        socket.create_connection(("127.0.0.1", port), timeout=SECONDS).close()
    except OSError:
        return False
    return True


def ask(live, method, path, body=None, cookie=None, trust=True):
    context = ssl.create_default_context(
        cafile=str(live["folder"] / "authority.crt") if trust else None
    )
    line = http.client.HTTPSConnection(
        "localhost", live["secure"], context=context, timeout=SECONDS
    )
    headers = {"X-Cue-Ladder": "1", "Content-Type": "application/json"}
    if cookie:
        headers["Cookie"] = cookie
    line.request(method, path, json.dumps(body) if body is not None else None, headers)
    answer = line.getresponse()
    found = answer.status, dict(answer.getheaders()), answer.read()
    line.close()
    return found


def test_the_recipes_of_the_guide_make_a_secure_site(live):
    with pytest.raises(ssl.SSLCertVerificationError):
        ask(live, "GET", "/api/health", trust=False)
    status, headers, _ = ask(live, "GET", "/api/health")
    assert status == 200
    assert "max-age" in headers["Strict-Transport-Security"]

    # what makes the app start without a network: a script, served fresh, from the root
    status, headers, body = ask(live, "GET", "/sw.js")
    assert (status, body) == (200, b"// worker")
    assert "javascript" in headers["Content-Type"]
    assert headers["Cache-Control"] == "no-cache"
    assert "worker-src 'self'" in headers["Content-Security-Policy"]

    sent = {"code": live["code"], "club": "Halle Nord Fencing Circle", "name": "Ansgar Vell",
            "passphrase": PASSPHRASE, "device": str(uuid.uuid4())}  # fmt: skip
    status, headers, body = ask(live, "POST", "/api/setup", sent)
    assert status == 200, body
    cookie = headers["Set-Cookie"]
    assert {"Secure", "HttpOnly", "SameSite=Lax"} <= set(cookie.split("; "))
    token = cookie.split(";")[0]
    # every worker knows the sign-in
    for _ in range(6):
        assert ask(live, "GET", "/api/club", cookie=token)[0] == 200

    # addresses that are handed out lead through the proxy
    _, _, body = ask(live, "POST", "/api/pairings", cookie=token)
    assert json.loads(body)["url"].startswith(f"https://localhost:{live['secure']}/pair#")

    # plain HTTP leads to HTTPS
    line = http.client.HTTPConnection("localhost", live["plain"], timeout=SECONDS)
    line.request("GET", "/p/x")
    answer = line.getresponse()
    assert (answer.status, answer.getheader("Location")) == (301, "https://localhost/p/x")
    line.close()


def test_the_service_and_the_commands_of_the_guide_exist():
    from cueladder.cli import main

    text = GUIDE.read_text("utf-8")
    named = set(re.findall(r"cueladder(?: --data \S+)? ([a-z]+)", text))
    assert {
        "certificate",
        "db",
        "setup",
        "serve",
        "backup",
        "restore",
        "move",
        "retention",
    } <= named
    told = {"certificate", "db", "setup", "serve", "backup", "restore", "move", "retention"}
    assert told <= named
    assert told <= set(main.commands)
    assert "Environment=CUELADDER_PROXIES=1" in part("ini")
