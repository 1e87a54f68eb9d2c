"""The signal is lost in the bay: what was done waits, and is sent once and in its order."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Error, Page, expect

from tests.browser.conftest import Site
from tests.browser.server import JOB, sign_in, wait_until

pytestmark = [pytest.mark.browser, pytest.mark.served]
Visit = Callable[..., Page]
BAY = f"/jobs/{JOB}/bay/"
KEPT = """(async () => {
  const base = await new Promise((yes) => {
    indexedDB.open("undertrim-bay", 1).onsuccess = (e) => yes(e.target.result);
  });
  const all = base.transaction("acts").objectStore("acts").getAll();
  return new Promise((yes) => { all.onsuccess = () => yes(all.result.length); });
})()"""


def _reopen(page: Page) -> None:
    """Open the car anew; the page may just be doing that itself, and then ours is given up."""
    try:
        page.goto(BAY)
    except Error:
        page.goto(BAY)


def test_nothing_done_without_signal_is_lost(visit: Visit, site: Site, tmp_path: Path) -> None:
    """Offline: two ticks, a reload, a value and a photo; signed out; back: each there once."""
    from PIL import Image

    photo = tmp_path / "door.jpg"
    Image.new("RGB", (320, 240), "grey").save(photo)
    page = visit("installer", width=390, height=844)
    page.goto(BAY)
    page.evaluate("navigator.serviceWorker.ready")
    page.goto(BAY)  # the worker stands in between from the second time on
    door = page.locator("details.bay-panel").filter(has_text="Front door card, left")
    door.locator("summary").first.click()
    door.get_by_role("button", name="I have read this").click()
    expect(door.get_by_role("button", name="I have read this")).to_have_count(0)
    expect(page.locator("#bay-waiting")).to_be_hidden()
    page.goto(BAY)
    page.context.set_offline(True)
    for number in range(2):
        page.evaluate("document.querySelectorAll('.bay-panel').forEach((one) => one.open = true)")
        door.locator(".bay-tick").nth(number).click()
        expect(page.locator("#bay-waiting")).to_contain_text(str(number + 1))
    page.reload()
    expect(page.locator("#bay-waiting")).to_contain_text("2")
    page.evaluate("document.querySelectorAll('.bay-panel').forEach((one) => one.open = true)")
    value = page.locator("form[data-act='value']").nth(3)
    value.locator("input[name$='-value']").fill("37 mA")
    value.get_by_role("button", name="Write down").click()
    expect(page.locator("#bay-waiting")).to_contain_text("3")
    page.locator("form[data-act='photo']:not([data-step]) [type=file]").nth(2).set_input_files(
        photo
    )
    expect(page.locator("#bay-waiting")).to_contain_text("4")

    page.context.clear_cookies()
    page.context.set_offline(False)
    expect(page.locator("#bay-waiting")).to_contain_text("Sign in again")
    assert page.evaluate(KEPT) == 4
    sign_in(page, "installer")
    page.goto(BAY)
    wait_until(page, f"(await {KEPT}) === 0")
    _reopen(page)
    expect(page.locator("#bay-waiting")).to_be_hidden()
    expect(door.locator(".bay-tick[aria-pressed=true]")).to_have_count(2)
    expect(page.locator("form[data-act='value']").nth(3)).to_contain_text("37")
    expect(page.locator(".bay-panel:not([id^='visit-']) .bay-photos img")).to_have_count(1)
    site.complaints.clear()  # what a browser says of a lost line


def test_what_was_done_differently_waits_too(visit: Visit, site: Site) -> None:
    """Offline the empty form opens for a run nobody had opened; it is sent once there is signal."""
    page = visit("installer", width=390, height=844)
    page.goto(BAY)
    page.evaluate("navigator.serviceWorker.ready")
    page.goto(BAY)
    wait_until(page, "(await (await caches.open('bay-pages')).keys()).length === 3")
    page.context.set_offline(True)
    page.evaluate("document.querySelectorAll('details').forEach((one) => one.open = true)")
    page.get_by_role("link", name="Lies differently").first.click()
    expect(page.get_by_text("What is left empty here stays as it was designed.")).to_be_visible()
    assert page.locator("select[name=run]").input_value()
    page.locator("[name=reason]").fill("The sill was full.")
    page.locator("[name=length]").fill("4.32 m")
    page.get_by_role("button", name="Save", exact=True).click()
    page.wait_for_url(lambda address: address.endswith("/bay/"))
    expect(page.locator("#bay-waiting")).to_contain_text("1")
    page.context.set_offline(False)
    wait_until(page, f"(await {KEPT}) === 0")
    _reopen(page)
    expect(page.locator("#bay")).to_contain_text("The sill was full.")
    site.complaints.clear()  # what a browser says of a lost line


def test_a_kept_page_is_never_shown_to_the_next_person(visit: Visit, site: Site) -> None:
    """A sign-in ran out, another signs in, the line breaks: no page of the first is there."""
    page = visit("installer", width=390, height=844)
    page.goto(BAY)
    page.evaluate("navigator.serviceWorker.ready")
    page.goto(BAY)
    page.context.set_offline(True)
    page.reload()
    expect(page.locator("#bay")).to_be_visible()
    page.context.set_offline(False)
    page.context.clear_cookies()
    sign_in(page, "designer")
    page.context.set_offline(True)
    with pytest.raises(Error):
        page.goto(BAY)
    site.complaints.clear()  # what a browser says of a lost line
