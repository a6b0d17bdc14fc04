"""A small proxy on loopback that can lose replies after the server has acted. Not a test module."""

from __future__ import annotations

import http.client
import threading
from collections.abc import Callable
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer


class Proxy:
    """Forwards every request to a server's port; `lose(method, path)` true drops the reply."""

    def __init__(self, port: int, server_port: int) -> None:
        self.lose: Callable[[str, str], bool] = lambda method, path: False
        self.lost: list[str] = []
        proxy = self

        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def _forward(self) -> None:
                size = int(self.headers.get("Content-Length") or 0)
                body = self.rfile.read(size) if size else None
                upstream = http.client.HTTPConnection("127.0.0.1", server_port, timeout=30)
                try:
                    upstream.request(self.command, self.path, body, dict(self.headers))
                    reply = upstream.getresponse()
                    content = reply.read()
                except OSError:
                    self.close_connection = True
                    return
                finally:
                    upstream.close()
                if proxy.lose(self.command, self.path):
                    proxy.lost.append(f"{self.command} {self.path}")
                    self.close_connection = True
                    return
                self.send_response_only(reply.status)
                for name, value in reply.getheaders():
                    if name.lower() not in ("connection", "content-length", "transfer-encoding"):
                        self.send_header(name, value)
                self.send_header("Content-Length", str(len(content)))
                self.end_headers()
                self.wfile.write(content)

            do_GET = do_POST = do_PUT = do_PATCH = do_DELETE = _forward

            def log_message(self, format: str, *args: object) -> None:
                """Say nothing."""

        self._server = ThreadingHTTPServer(("127.0.0.1", port), Handler)
        self._server.daemon_threads = True
        self._thread = threading.Thread(target=self._server.serve_forever, daemon=True)

    def __enter__(self) -> Proxy:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()
