"""The signal is lost in the bay: what was done waits, and is sent once and in its order."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

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


def test_nothing_done_without_signal_is_lost(visit: Visit, site: Site, tmp_path: Path) -> None:
    """Offline: two ticks, a reload, a value and a photo; signed out; back: each there once."""
    from PIL import Image

    photo = tmp_path / "door.jpg"
    Image.new("RGB", (320, 240), "grey").save(photo)
    page = visit("installer", width=390, height=844)
    page.goto(BAY)
    page.evaluate("navigator.serviceWorker.ready")
    page.goto(BAY)  # the worker stands in between from the second time on
    page.context.set_offline(True)
    door = page.locator("details.bay-panel").filter(has_text="Front door card, left")
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
    page.goto(BAY)
    expect(page.locator("#bay-waiting")).to_be_hidden()
    expect(door.locator(".bay-tick[aria-pressed=true]")).to_have_count(2)
    expect(page.locator("form[data-act='value']").nth(3)).to_contain_text("37")
    expect(page.locator(".bay-photos img")).to_have_count(1)
    site.complaints.clear()  # what a browser says of a lost line
