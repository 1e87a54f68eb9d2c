"""One server and one browser for all browser tests; without a Chromium they are skipped."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, sync_playwright

from tests.browser.server import (
    DATABASE,
    chromium_path,
    copy_database,
    demo_server,
    launch,
    signed_in,
)

# The console counts these as errors: a page that answers 403, 404 or 422 on purpose, and a preview
# given up because the next key was struck or the page was left.
EXPECTED = re.compile("responded with a status|^htmx:(sendAbort|afterRequest),")


@dataclass
class Site:
    """The running demo: its address, its database as it was loaded, what went wrong on a page.

    Everybody has signed in before the database is kept: their cookies hold in each test.
    """

    address: str
    database: Path
    as_loaded: Path
    cookies: dict[str, Any]
    complaints: list[str] = field(default_factory=list)

    def reset(self) -> None:
        """Put the demo back as it was loaded."""
        copy_database(self.as_loaded, self.database)
        self.complaints.clear()

    def watch(self, context: BrowserContext) -> None:
        """Write down every console error and every request that wants to leave the machine."""

        def said(message: ConsoleMessage) -> None:
            if message.type == "error" and not EXPECTED.search(message.text):
                self.complaints.append(f"console: {message.text}")

        def asked(url: str) -> None:
            if not url.startswith((self.address, "data:", "blob:")):
                self.complaints.append(f"leaves the machine: {url}")

        context.on("console", said)
        context.on("weberror", lambda error: self.complaints.append(f"script: {error.error}"))
        context.on("request", lambda request: asked(request.url))
        context.on(
            "response",
            lambda answer: (
                self.complaints.append(f"{answer.status}: {answer.url}")
                if answer.status >= 400 and answer.request.resource_type not in ("document", "xhr")
                else None
            ),
        )


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    """Return the one browser of these tests.

    Not longer: while it runs there is an event loop, and Django refuses others the database.
    """
    path = chromium_path()
    if path is None:
        pytest.skip("no Chromium: install chromium or name one in UNDERTRIM_CHROMIUM")
    with sync_playwright() as playwright:
        opened = launch(playwright, path)
        yield opened
        opened.close()


@pytest.fixture(scope="package")
def site(browser: Browser, new_demo: Callable[[], Path]) -> Iterator[Site]:
    """Serve the demo; asks for the browser first, so that nothing is started in vain."""
    var = new_demo()
    with demo_server(var) as address:
        live, kept = var / DATABASE, var / "as-loaded.sqlite3"
        cookies = signed_in(browser, address)
        copy_database(live, kept)
        yield Site(address, live, kept, cookies)


@pytest.fixture
def visit(browser: Browser, site: Site) -> Iterator[Callable[..., Page]]:
    """Return an empty page of somebody who has just signed in; the demo is fresh."""
    site.reset()
    contexts: list[BrowserContext] = []

    def open_as(who: str, *, width: int = 1440, height: int = 900) -> Page:
        context = browser.new_context(
            base_url=site.address,
            viewport={"width": width, "height": height},
            storage_state=site.cookies[who],
        )
        contexts.append(context)
        site.watch(context)
        return context.new_page()

    yield open_as
    for context in contexts:
        context.close()
    assert not site.complaints
