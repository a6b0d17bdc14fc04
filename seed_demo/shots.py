"""Retake the pictures in the README and the guide: `make shots`. Real screens of the demo club."""

from __future__ import annotations

import io
import shutil
import tempfile
from datetime import date
from pathlib import Path
from threading import Thread

from PIL import Image
from playwright.sync_api import Page, sync_playwright
from waitress import create_server

from cueladder.app import create_app

from .club import PASSPHRASE
from .make import make

ROOT = Path(__file__).parent.parent
PICTURES = ROOT / "frontend" / "pictures"
GUIDE = ROOT / "backend" / "cueladder" / "pages" / "guide" / "pictures"
# Pictures of the guide are kept on every phone: fewer colours, a quarter of the bytes.
COLOURS = 48
PHONE = {"width": 360, "height": 740}
# A touch closer to the last one is a bounce, and no cue; in ms.
APART = 400


def main() -> None:
    """Make the club, serve it, and take each picture."""
    with tempfile.TemporaryDirectory() as folder:
        app = create_app({"DATA": folder})
        with app.app_context():
            made = make(date.today())  # noqa: DTZ011
        server = create_server(app, host="127.0.0.1", port=0)
        Thread(target=server.run, daemon=True).start()
        for place in (PICTURES, GUIDE):
            place.mkdir(exist_ok=True)
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
    _shoot(page, "today", guide=True)
    page.get_by_role("button", name="Start").first.click()
    _choose(page, "attack-into-preparation")
    for kind in ("correct", "correct", "correct", "correct", "correct", "correct", "late"):
        page.get_by_test_id(f"mark-{kind}").click()
        page.wait_for_timeout(APART)
    _shoot(page, "strip", guide=True)
    _choose(page, "preparation-or-attack")
    page.get_by_test_id("mark-correct").click()
    _shoot(page, "mixed", guide=True)
    home = page.url.split("/strip")[0]
    page.goto(page.url.replace("/strip/", "/after/"))
    page.get_by_test_id("after").wait_for()
    _shoot(page, "after", guide=True, readme=False)
    page.goto(f"{home}/p/{token}")
    _shoot(page, "progress")


def _choose(page: Page, slug: str) -> None:
    page.wait_for_timeout(800)
    _agree(page)
    if not page.get_by_role("dialog").is_visible():
        page.get_by_test_id("drill-pick").click()
    choice = page.get_by_test_id(f"drill-{slug}")
    choice.wait_for(state="attached")
    if not choice.is_visible():  # of a fencer who has worked few, the rest is folded
        page.get_by_test_id("all-drills").locator("summary").click()
    choice.click()
    page.wait_for_timeout(300)
    _agree(page)


def _agree(page: Page) -> None:
    agree = page.get_by_test_id("care-agree")
    page.locator("[data-testid=mark-correct]:enabled").or_(agree).first.wait_for()
    if agree.is_visible():
        agree.click()


def _shoot(page: Page, name: str, *, guide: bool = False, readme: bool = True) -> None:
    page.wait_for_timeout(600)
    taken = page.screenshot()
    if readme:
        (PICTURES / f"{name}.png").write_bytes(taken)
    if guide:
        small = Image.open(io.BytesIO(taken)).convert("RGB").quantize(COLOURS)
        small.save(GUIDE / f"{name}.png", optimize=True)
    print(f"{name}.png")


if __name__ == "__main__":
    main()
