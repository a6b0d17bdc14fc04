"""A proxy on loopback that loses, doubles, delays and reorders; phones send through it.

python -m tests.faults.server_proxy [--events 20000] [--phones 6] [--database URL]
"""

from __future__ import annotations

import argparse
import http.client
import os
import random
import socket
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.faults.server_kill import wrong_standings
from tests.faults.server_run import House, Queue, Served, check, lesson

FAULTS = (
    "none",
    "request lost",
    "request cut",
    "reply lost",
    "reply cut",
    "doubled",
    "doubled at once",
    "delayed",
    "held back",
    "reset",
)
HELD = 0.3


class FaultProxy:
    """Passes one request a connection on to the server, with a fault drawn for each.

    A request that is *held back* reaches the server only after others that were sent later, while
    the phone has given up on it and sends its events again: that is how requests are reordered.
    """

    def __init__(self, port: int, seed: int, faulty: float = 0.7) -> None:
        self.server, self.faulty, self.rng = port, faulty, random.Random(seed)
        self.faults: Counter[str] = Counter()
        self._late: list[threading.Thread] = []
        self._listener = socket.create_server(("127.0.0.1", 0), backlog=128)
        self.port = self._listener.getsockname()[1]
        threading.Thread(target=self._accept, daemon=True).start()

    def close(self) -> None:
        """Wait for what is held back, then stop."""
        for thread in list(self._late):
            thread.join(30)
        self._listener.close()

    def _accept(self) -> None:
        while True:
            try:
                connection, _ = self._listener.accept()
            except OSError:
                return
            threading.Thread(target=self._serve, args=(connection,), daemon=True).start()

    def _serve(self, phone: socket.socket) -> None:
        fault = self.rng.choice(FAULTS[1:]) if self.rng.random() < self.faulty else "none"
        self.faults[fault] += 1
        with phone:
            try:
                request = _whole(phone)
                self._pass_on(phone, request, fault)
            except OSError:
                return

    def _pass_on(self, phone: socket.socket, request: bytes, fault: str) -> None:
        if fault == "request lost":
            return
        if fault == "request cut":
            self._ask(request[: self.rng.randrange(len(request))], whole=False)
            return
        if fault == "held back":
            self._later(lambda: self._ask(request))
            return
        if fault == "delayed":
            time.sleep(self.rng.uniform(0, HELD))
        if fault == "doubled":
            self._ask(request)
        if fault == "doubled at once":
            self._later(lambda: self._ask(request), 0)
        reply = self._ask(request)
        if fault == "reply lost":
            return
        if fault == "reset":
            phone.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\1\0\0\0\0\0\0\0")
            return
        phone.sendall(reply[: self.rng.randrange(len(reply))] if fault == "reply cut" else reply)

    def _later(self, job: Callable[[], Any], longest: float = 2 * HELD) -> None:
        def run() -> None:
            time.sleep(self.rng.uniform(0, longest))
            job()

        thread = threading.Thread(target=run, daemon=True)
        self._late.append(thread)
        thread.start()

    def _ask(self, request: bytes, whole: bool = True) -> bytes:
        with socket.create_connection(("127.0.0.1", self.server), 20) as server:
            server.sendall(request)
            if not whole:
                return b""
            answer = http.client.HTTPResponse(server)
            answer.begin()
            body = answer.read()
        head = f"HTTP/1.1 {answer.status} {answer.reason}\r\n" + "".join(
            f"{name}: {value}\r\n" for name, value in answer.getheaders()
        )
        return head.encode() + b"\r\n" + body


def _whole(phone: socket.socket) -> bytes:
    """One request, head and body."""
    phone.settimeout(20)
    data = b""
    while b"\r\n\r\n" not in data:
        data += _some(phone)
    head, _, body = data.partition(b"\r\n\r\n")
    length = next(
        int(line.split(b":")[1])
        for line in head.split(b"\r\n")
        if line.lower().startswith(b"content-length")
    )
    while len(body) < length:
        body += _some(phone)
    return head + b"\r\n\r\n" + body


def _some(phone: socket.socket) -> bytes:
    found = phone.recv(65536)
    if not found:
        raise ConnectionError("the phone hung up")
    return found


def send_through(house: House, phones: int, events: int, seed: int = 1) -> dict[str, Any]:
    """Phones send so many events through the proxy; returns the counts."""
    made: list[dict[str, Any]] = []
    queues, failed = [], []
    with Served(house) as server:
        proxy = FaultProxy(server.port, seed)
        for k in range(phones):
            rng = random.Random(seed * 1000 + k)
            queue, phone = Queue(proxy.port, house.cookie, rng, timeout=5), house.phone()
            while len(queue.unsent) < events // phones:
                queue.unsent += lesson(phone, rng.choice(house.fencers), rng, 25)
            made += queue.unsent
            queues.append(queue)

        def send(queue: Queue) -> None:
            try:
                queue.send_all(3600)
            except BaseException as error:
                failed.append(error)

        threads = [threading.Thread(target=send, args=(queue,)) for queue in queues]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        proxy.close()
    if failed:
        raise failed[0]
    lost, doubled = check(house, made)
    return {
        "events": len(made),
        "requests": sum(queue.tries for queue in queues),
        "faults": dict(proxy.faults),
        "already stored": sum(queue.words.get("already", 0) for queue in queues),
        "problems": [status for queue in queues for status, _ in queue.problems],
        "lost": lost,
        "doubled": doubled,
        "standings wrong": wrong_standings(house, made),
    }


def main() -> None:
    """Send, count and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--events", type=int, default=20_000)
    parser.add_argument("--phones", type=int, default=6)
    parser.add_argument("--database", help="a PostgreSQL database without tables; else SQLite")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        house = House(Path(folder), given.database)
        for name, count in send_through(house, given.phones, given.events).items():
            print(f"{name}: {count}")
    print(f"load {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
