"""Chromium behind the same interface, led by Playwright as elsewhere. Not a test module."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import Error, Page, Playwright

from tests.browser.engines.engine import Engine
from tests.browser.phone import Phone


class Chromium(Engine):
    """The system's Chromium."""

    name = "Chromium"
    tell = "((text) => cueLadderTold(text))"
    needs = ("chromium",)
    playwright: Playwright

    def __init__(self, profile: Path) -> None:
        super().__init__(profile)
        self._phone = Phone(self.playwright, profile, "")
        self._told: list[str] = []

    @property
    def _page(self) -> Page:
        if self._phone.context is None:  # killed in another thread
            raise Error("the browser is gone")
        return self._phone.page

    def start(self) -> None:
        page = self._phone.start_blank()
        page.context.expose_function("cueLadderTold", lambda text: self._told.append(text))

    def go(self, address: str) -> None:
        self._page.goto(address)

    def ask(self, script: str, *given: Any) -> Any:
        call = f"(given) => ({script})(...given)"
        while True:
            try:
                return self._page.evaluate(call, list(given))
            except Error as error:  # asked of a page that is just being left
                if "context was destroyed" not in str(error):
                    raise
                self._page.wait_for_load_state()

    def press(self, css: str) -> None:
        self._page.locator(css).first.click()

    def touch(self, css: str) -> None:
        self._page.locator(css).first.tap()

    def write(self, css: str, text: str) -> None:
        self._page.locator(css).press_sequentially(text)

    def picture(self) -> bytes:
        return self._page.screenshot()

    def pause(self, seconds: float) -> None:
        self._page.wait_for_timeout(seconds * 1000)

    def told(self) -> list[str]:
        if self._phone.context is not None:
            self._page.wait_for_timeout(1)
        return list(self._told)

    def kill(self) -> None:
        self._phone.kill()

    def close(self) -> None:
        self._phone.close()

    @property
    def databases(self) -> list[Path]:
        return list(self.profile.glob("*/IndexedDB"))
