"""The phone's own database, read past the app. Not a test module."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

READ = """async (asks) => {
  const asked = (request) => new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });
  const db = await asked(indexedDB.open("cue-ladder"));
  const tx = db.transaction(asks.map(([store]) => store));
  const found = await Promise.all(asks.map(([store, what, key, index]) => {
    const from = index ? tx.objectStore(store).index(index) : tx.objectStore(store);
    return asked(from[what](key));
  }));
  db.close();
  return found;
}"""


def read(ask: Callable[..., Any], *asks: tuple[Any, ...]) -> list[Any]:
    """Ask several things of the database at one moment; the answers.

    Args:
        ask: runs a function in a page of the app's address: `Page.evaluate` or `Engine.ask`.
        asks: each a store, what is asked of it (``get``, ``getAll``, ``count``), and if wanted a
            key, and the index it is a key of.
    """
    return ask(READ, [list(each) for each in asks])
