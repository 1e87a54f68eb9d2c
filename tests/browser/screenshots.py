"""`python -m tests.browser.screenshots`: take the pictures of the README from the demo jobs."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import django
from PIL import Image
from playwright.sync_api import Browser, sync_playwright

from tests.browser.server import JOB, at, chromium_path, demo_server, launch, sign_in

PICTURES = Path(__file__).parent / "pictures"
COLOURS = 64
# Name: who looks, at what, scrolled to where, on how wide and how high a screen.
SCREENS = {
    "board": ("manager", "/", "header", 1200, 700),
    "box": ("designer", f"/jobs/{JOB}/box/{{box}}/", "header", 1200, 1000),
    "power": ("designer", f"/jobs/{JOB}/power/", "header", 1200, 1000),
    "bay": ("installer", f"/jobs/{JOB}/bay/", ".bay-next", 390, 844),
}
SHEET = f"/jobs/{JOB}/sheets/panels/?paper=A4&language=en"


def _lighten(file: Path) -> None:
    """Save a picture of few colours as such: line drawings lose nothing a reader would miss."""
    with Image.open(file) as picture:
        picture.convert("RGB").quantize(COLOURS).save(file, optimize=True)


def _screens(browser: Browser, address: str) -> None:
    for name, (who, where, part, width, height) in SCREENS.items():
        viewport = {"width": width, "height": height}
        context = browser.new_context(base_url=address, viewport=viewport)  # type: ignore[arg-type]
        page = context.new_page()
        sign_in(page, who)
        page.goto(at(where))
        page.evaluate("document.fonts.ready")
        page.locator(part).first.evaluate("one => one.scrollIntoView()")
        page.screenshot(path=PICTURES / f"{name}.png")
        context.close()


def _sheet(browser: Browser, address: str) -> None:
    """Take the first page of the panel record, where poppler can draw it."""
    if not shutil.which("pdftoppm"):
        sys.stderr.write("No picture of the panel record: pdftoppm (poppler-utils) is missing.\n")
        return
    context = browser.new_context(base_url=address)
    sign_in(context.new_page(), "designer")
    answer = context.request.get(SHEET)
    while answer.status == 202:  # it is being printed
        answer = context.request.get(SHEET)
    content = answer.body()
    context.close()
    with tempfile.TemporaryDirectory() as folder:
        pdf = Path(folder) / "sheet.pdf"
        pdf.write_bytes(content)
        draw = ["pdftoppm", "-png", "-r", "96", "-f", "1", "-l", "1", "-singlefile"]
        subprocess.run([*draw, pdf, PICTURES / "sheet"], check=True)


def main() -> None:
    """Take every picture anew."""
    path = chromium_path()
    if path is None:
        sys.exit("No Chromium: install chromium or name one in UNDERTRIM_CHROMIUM.")
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    django.setup()
    PICTURES.mkdir(exist_ok=True)
    with (
        tempfile.TemporaryDirectory() as var,
        demo_server(Path(var)) as address,
        sync_playwright() as playwright,
    ):
        browser = launch(playwright, path)
        _screens(browser, address)
        _sheet(browser, address)
        browser.close()
    for file in sorted(PICTURES.glob("*.png")):
        _lighten(file)
        sys.stdout.write(f"{file.name}: {file.stat().st_size // 1000} kB\n")


if __name__ == "__main__":
    main()
