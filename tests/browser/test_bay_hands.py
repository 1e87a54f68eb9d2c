"""The bay with gloves on: everything is large enough, and the unit is a key of its own."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from django.urls import reverse
from PIL import Image
from playwright.sync_api import Page, expect

from tests.browser.conftest import Site
from tests.browser.server import JOB, wait_until

pytestmark = [pytest.mark.browser, pytest.mark.served]
Visit = Callable[..., Page]
# The house's own: 56 px where gloves are on, 44 px elsewhere (tokens.css). A label that is pressed
# stands for its field.
SMALL = """() => [...document.querySelectorAll(
    'a[href], button, input:not([type=hidden]), select, textarea, summary')]
  .filter((one) => one.checkVisibility({ visibilityProperty: true }) && !one.closest('.spoken'))
  .map((one) => {
    const { width, height } = (one.closest('label') ?? one).getBoundingClientRect();
    const least = (one.closest('.bay') ? 56 : 44) - 0.5;
    const says = (one.textContent || one.name || one.className).trim().slice(0, 40);
    return width && (width < least || height < least) ? `${says}: ${width} x ${height}` : '';
  }).filter(Boolean)"""
OPEN = "document.querySelectorAll('details').forEach((one) => one.open = true)"
PAGES = ["bay-cars", "bay", "gate", "panel-close"]


@pytest.mark.parametrize("name", PAGES)
def test_everything_to_press_is_large_enough(visit: Visit, name: str) -> None:
    """At 390 px, with every fold open, nothing is smaller than a gloved finger."""
    page = visit("installer", width=390, height=844)
    page.goto(reverse("bay", args=[JOB]))
    if name == "panel-close":
        page.evaluate(OPEN)
        page.get_by_role("link", name="Close it").first.click()
    elif name != "bay":
        page.goto(reverse(name, args=[] if name == "bay-cars" else [JOB]))
    page.evaluate(OPEN)
    if name == "bay":
        page.locator("input[data-pad]").first.focus()
        expect(page.locator(".pad button").first).to_be_visible()
    assert page.evaluate(SMALL) == []


def test_amperes_for_milliamperes_are_asked_about(visit: Visit, site: Site) -> None:
    """37 and the key A: it asks whether 37 mA was meant, and one tap says so."""
    page = visit("installer", width=390, height=844)
    page.goto(reverse("bay", args=[JOB]))
    page.evaluate(OPEN)
    form = page.locator("form[data-act='value']").filter(has_text="Key-off")
    field = form.locator("input[data-pad]")
    field.focus()
    pad = form.locator(".pad")
    for text in ("3", "7", "A"):
        pad.get_by_role("button", name=text, exact=True).click()
    assert field.input_value() == "37 A"
    form.get_by_role("button", name="Write down").click()
    waiting = page.locator("#bay-waiting")
    expect(waiting).to_contain_text("Was it 37")
    site.complaints.clear()  # the question came as a 409
    waiting.get_by_role("button", name="It was 37").click()
    wait_until(page, "document.querySelector('#bay-waiting').hidden")
    page.goto(reverse("bay", args=[JOB]))
    page.evaluate(OPEN)
    expect(form).to_contain_text("37")
    expect(form).to_contain_text("mA")
    expect(form).not_to_contain_text("37 A")


def test_milliamperes_are_a_key_of_their_own(visit: Visit, site: Site) -> None:
    """37 and the key mA: written down at once, without a word in the way."""
    page = visit("installer", width=390, height=844)
    page.goto(reverse("bay", args=[JOB]))
    page.evaluate(OPEN)
    form = page.locator("form[data-act='value']").filter(has_text="Key-off")
    form.locator("input[data-pad]").focus()
    for text in ("3", "7", "mA"):
        form.locator(".pad").get_by_role("button", name=text, exact=True).click()
    assert form.locator("input[data-pad]").input_value() == "37 mA"
    form.get_by_role("button", name="Write down").click()
    expect(form).to_contain_text("Mika Orsay")
    expect(page.locator("#bay-waiting")).to_be_hidden()


def test_words_that_are_being_typed_outlive_what_is_sent(
    visit: Visit, site: Site, tmp_path: Path
) -> None:
    """A photo goes out while a note is typed: the page is not fetched anew under the words."""
    photo = tmp_path / "sill.jpg"
    Image.new("RGB", (320, 240), "grey").save(photo)
    page = visit("installer", width=390, height=844)
    page.goto(reverse("bay", args=[JOB]))
    sill = page.locator("details.bay-panel").filter(has_text="Sill trim, left")
    sill.locator("summary").first.click()
    sill.locator(".bay-jot > summary").click()
    sill.locator("form[data-act='photo'] [type=file]").set_input_files(photo)
    words = sill.locator("input[name=text]")
    words.fill("The clip at the front is bent.")
    wait_until(page, "document.querySelector('#bay-waiting').hidden")
    page.wait_for_timeout(1500)
    assert words.input_value() == "The clip at the front is bent."
    assert sill.locator(".bay-photos img").count() == 0
    sill.get_by_role("button", name="Extra work").click()
    expect(sill).to_contain_text("Extra work The clip at the front is bent.")
    expect(sill.locator(".bay-photos img")).to_have_count(1)
