"""The page on paper: one A4 sheet, by real Chromium."""

from __future__ import annotations

import re
import shutil
import subprocess
import threading

import pytest
from werkzeug.serving import make_server

from cueladder.store.drills import add_drill
from cueladder.store.links import create_link
from tests.drills import document
from tests.make_texts import OTHERS
from tests.pages import season
from tests.pages.conftest import TODAY

pytestmark = [
    pytest.mark.browser,
    pytest.mark.parametrize("app", ["sqlite"], indirect=True),
]

A4 = ("594", "841")


@pytest.fixture
def printed(app, tmp_path):
    """Prints the page of a link and returns the PDF."""
    server = make_server("127.0.0.1", 0, app, threaded=True)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()

    def go(token: str, language: str = "en") -> bytes:
        out = tmp_path / "page.pdf"
        browser = shutil.which("chromium")
        assert browser, "the browser tests need Chromium"
        subprocess.run(
            [browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
             f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={out}",
             f"http://127.0.0.1:{server.server_port}/p/{token}?lang={language}"],
            check=True, capture_output=True,
        )  # fmt: skip
        return out.read_bytes()

    yield go
    server.shutdown()
    thread.join()
    server.server_close()


def sheets(pdf: bytes) -> list[tuple[str, str]]:
    """Width and height of each page, in whole points."""
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == len(re.findall(rb"/MediaBox", pdf))
    sizes = re.findall(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    return [(w.decode().split(".")[0], h.decode().split(".")[0]) for w, h in sizes]


@pytest.mark.parametrize("drills", [1, 6, 7])
def test_the_page_prints_on_one_sheet(opened, printed, drills):
    fencer = opened(lessons=8, drills=drills)
    assert sheets(printed(fencer.token)) == [A4]


@pytest.mark.parametrize("language", OTHERS)
def test_the_page_prints_on_one_sheet_in_every_language(opened, printed, language):
    fencer = opened(lessons=8, drills=6)
    assert sheets(printed(fencer.token, language)) == [A4]


def test_six_drills_with_two_ladders_and_long_texts_still_print_on_one_sheet(club, printed):
    wordy = "Stand in front of a mirror and move the hand slowly to the side and back again, " * 7
    drills = []
    for k in range(6):
        told = document(
            "discrimination",
            slug=f"long-{k}",
            name=f"A drill with a rather long name, number {k}, so that it takes two lines or so",
            alone=wordy[:600],
        )
        (drill, version), _ = add_drill(club.id, told)
        drills.append((drill.id, version.chart_id))
    season.lessons(club, drills, season.weekly(6, TODAY), each=6, cues=40)
    token = create_link(club.id, club.fencer, club.coach).token
    assert sheets(printed(token)) == [A4]
