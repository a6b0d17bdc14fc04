"""Retake the pictures in the README: `make shots`. Real screens of the demo club in Chromium."""

from __future__ import annotations

import shutil
import tempfile
from datetime import date
from pathlib import Path
from threading import Thread

from playwright.sync_api import Page, sync_playwright
from waitress import create_server

from cueladder.app import create_app

from .club import PASSPHRASE
from .make import make

PICTURES = Path(__file__).parent.parent / "frontend" / "pictures"
PHONE = {"width": 360, "height": 740}


def main() -> None:
    """Make the club, serve it, and take each picture."""
    with tempfile.TemporaryDirectory() as folder:
        app = create_app({"DATA": folder})
        with app.app_context():
            made = make(date.today())  # noqa: DTZ011
        server = create_server(app, host="127.0.0.1", port=0)
        Thread(target=server.run, daemon=True).start()
        PICTURES.mkdir(exist_ok=True)
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(
                executable_path=shutil.which("chromium"), args=["--no-sandbox"]
            )
            page = browser.new_page(viewport=PHONE, device_scale_factor=1.5)
            page.goto(f"http://localhost:{server.effective_port}")
            _take(page, made.coach, made.token)
            browser.close()
        server.close()


def _take(page: Page, coach: str, token: str) -> None:
    page.get_by_label("Name").fill(coach)
    page.get_by_label("Passphrase").fill(PASSPHRASE)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("button", name="Start").first.wait_for()
    _shoot(page, "today")
    page.get_by_role("button", name="Start").first.click()
    _choose(page, "attack-into-preparation")
    for kind in ("correct", "correct", "correct", "correct", "correct", "correct", "late"):
        page.get_by_test_id(f"mark-{kind}").click()
    _shoot(page, "strip")
    _choose(page, "preparation-or-attack")
    page.get_by_test_id("mark-correct").click()
    _shoot(page, "mixed")
    page.goto(f"{page.url.split('/strip')[0]}/p/{token}")
    _shoot(page, "progress")


def _choose(page: Page, slug: str) -> None:
    page.wait_for_timeout(800)
    _agree(page)
    if not page.get_by_role("dialog").is_visible():
        page.get_by_test_id("drill-pick").click()
    page.get_by_test_id(f"drill-{slug}").click()
    page.wait_for_timeout(300)
    _agree(page)


def _agree(page: Page) -> None:
    agree = page.get_by_test_id("care-agree")
    if agree.is_visible():
        agree.click()


def _shoot(page: Page, name: str) -> None:
    page.wait_for_timeout(600)
    page.screenshot(path=PICTURES / f"{name}.png")
    print(f"{name}.png")


if __name__ == "__main__":
    main()
