"""A print in a real browser: the page that waits becomes the sheet by itself."""

from __future__ import annotations

import os
import re
from collections.abc import Callable

import pytest
from django.urls import reverse
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from jobs import sheets
from tests.browser.conftest import Site
from tests.browser.server import JOB
from tests.browser.test_every_page import AXE, OVERFLOW, RUN_AXE, WCAG

pytestmark = [
    pytest.mark.browser,
    pytest.mark.served,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]
PATIENCE = 120_000  # ms; a print gives way to everything else on the machine
THE_SHEET = '<link rel="icon" href="data:,"><h1>the sheet</h1>'
OVERVIEW = reverse("sheets", args=[JOB])


def _draft(kind: str) -> str:
    return f"{reverse('sheet-draft', args=[JOB, kind])}?paper=a4&language=en"


def _shown(context: BrowserContext) -> None:
    """Show a word in the place of a PDF: what the browser shows it with is a page of its own."""

    def answer(route: Route) -> None:
        fetched = route.fetch()
        if fetched.headers["content-type"] == "application/pdf":
            assert fetched.body().startswith(b"%PDF-")
            route.fulfill(content_type="text/html", body=THE_SHEET)
        else:
            route.fulfill(response=fetched)

    context.route("**/sheets/*/?paper=*", answer)


def _becomes_the_sheet(page: Page) -> None:
    expect(page.locator("h1")).to_have_text("the sheet", timeout=PATIENCE)


def test_a_draft_opens_by_itself_and_back_leads_to_the_sheets(visit: Callable[..., Page]):
    """A link, a calm page, then the file at the same address; back is where one came from."""
    page = visit("installer")
    _shown(page.context)
    page.goto(OVERVIEW)
    page.locator(f"a[href='{_draft('cables')}']").click()
    expect(page.locator("h1")).to_have_text("Being printed: cable sheet")
    _becomes_the_sheet(page)
    assert page.url.endswith(_draft("cables"))
    page.go_back()
    expect(page).to_have_url(re.compile(OVERVIEW + "$"))
    page.go_forward()  # printed already: no page that waits
    _becomes_the_sheet(page)


def test_a_draft_opens_in_a_tab_of_its_own(visit: Callable[..., Page]):
    """The link is a link: the middle button opens a tab that waits by itself."""
    page = visit("designer")
    _shown(page.context)
    page.goto(OVERVIEW)
    with page.context.expect_page() as tab:
        page.locator(f"a[href='{_draft('handover')}']").click(button="middle")
    _becomes_the_sheet(tab.value)
    expect(page).to_have_url(re.compile(OVERVIEW + "$"))


def test_issuing_tells_the_revision_when_it_is_there(visit: Callable[..., Page]):
    """Pressed, waited for, issued: the page says so, back and forth issue nothing more."""
    page = visit("designer")
    page.goto(OVERVIEW)
    page.locator(f"form[action='{reverse('sheet-issue', args=[JOB, 'labels'])}'] button").click()
    page.get_by_role("button", name="Issue it with this open").click()
    expect(page.locator("h1")).to_have_text("Being printed: cable labels")
    expect(page.locator(".print-state")).to_contain_text("issued as revision", timeout=PATIENCE)
    page.reload()
    page.goto(OVERVIEW)
    expect(page.locator("main")).to_contain_text("cable labels, revision 1")
    assert "revision 2" not in page.locator("main").inner_text()


def test_without_script_the_page_loads_itself_again(browser: Browser, site: Site):
    """A browser that runs no script gets the sheet too."""
    site.reset()
    context = browser.new_context(
        base_url=site.address, storage_state=site.cookies["installer"], java_script_enabled=False
    )
    _shown(context)
    page = context.new_page()
    page.goto(_draft("panels"))
    assert page.locator("h1").inner_text() == "Being printed: panel record"
    _becomes_the_sheet(page)
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1440])
def test_the_page_that_waits_can_be_read_by_everybody(visit: Callable[..., Page], width, scheme):
    """No rule of WCAG broken, nothing beyond the edge, while it asks again and again."""
    page = visit("manager", width=width)
    page.emulate_media(color_scheme=scheme)
    page.route("**/state/", lambda route: route.fulfill(status=202, body="<p>It is next.</p>"))
    page.goto(_draft("build"))
    expect(page.locator("h1")).to_have_text("Being printed: build sheet")
    with page.expect_request("**/state/"):
        pass
    with page.expect_request("**/state/"):
        pass
    assert page.evaluate(OVERFLOW) <= 0
    page.evaluate(AXE)
    assert page.evaluate(RUN_AXE, WCAG) == []
    if folder := os.environ.get("UNDERTRIM_LOOK"):
        page.screenshot(path=f"{folder}/print-{width}-{scheme}.png")
        page.goto(reverse("upkeep"))
        page.screenshot(path=f"{folder}/upkeep-{width}-{scheme}.png", full_page=True)
