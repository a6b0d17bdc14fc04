"""QR codes."""

from __future__ import annotations

import io

import segno


def qr_code(address: str) -> str:
    """A QR code of an address, as SVG."""
    picture = io.BytesIO()
    segno.make(address, micro=False).save(picture, kind="svg", scale=6, xmldecl=False)
    return picture.getvalue().decode()
