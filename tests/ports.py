"""Ports for servers of a test. Not a test module."""

from __future__ import annotations

import os
import socket
from itertools import count

# Below what a system takes for outgoing connections: a server that is stopped for a while finds its
# port free again. Each process begins elsewhere, so that two do not pick the same one at once.
FIRST, LAST = 10_240, 32_000
_tried = count(os.getpid() * 97)


def free_port() -> int:
    """A port of loopback that nobody listens on, and that this process has not given out before."""
    for number in _tried:
        port = FIRST + number % (LAST - FIRST)
        with socket.socket() as probe:
            try:
                probe.bind(("127.0.0.1", port))
            except OSError:
                continue
        return port
    raise AssertionError("unreachable")
