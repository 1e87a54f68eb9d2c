"""Parts are picked by typing, sheets are pasted, routes are tapped: without a page being loaded."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.server import JOB, ROUTED, at, wait_until

pytestmark = [pytest.mark.browser, pytest.mark.served]

Visit = Callable[..., Page]
EQUIPMENT = f"/jobs/{JOB}/equipment/"
BLANK = "form[data-blank]"
SHEET = """Fs 28 Hz
Qts 0.522  Qes 5.8  Qms 5.2
Vas 2.65 cu ft
Re 3.4 ohms
"""


def test_a_part_is_picked_by_its_figures(visit: Visit) -> None:
    """Size and load lead to the one part that has both; Enter chooses it, and the row is made."""
    page = visit("designer")
    page.goto(EQUIPMENT)
    before = page.locator("[name=place]").count()
    field = page.locator(f"{BLANK} [role=combobox]")
    with page.expect_response("**/catalogue/figures/"):
        field.focus()
    page.keyboard.type("165 mm 4 ohm")
    lines = page.locator(".pick-list:visible [role=option]")
    expect(lines).to_have_count(1)
    expect(lines).to_contain_text("166 mm")
    page.keyboard.press("Enter")
    expect(field).to_have_value(_chosen(page))
    expect(field).to_have_attribute("aria-expanded", "false")
    page.keyboard.press("Tab")
    page.keyboard.type("rear door left")
    page.keyboard.press("Enter")
    wait_until(page, f"document.querySelectorAll('[name=place]').length === {before + 1}")


def _chosen(page: Page) -> str:
    """Return the words of the part that would be sent."""
    return page.locator(f"{BLANK} select[name=part]").evaluate("s => s.selectedOptions[0].text")


def test_what_names_several_parts_chooses_none(visit: Visit) -> None:
    """Left with words that several parts bear, the cell stays open and the row is not sent."""
    page = visit("designer")
    page.goto(EQUIPMENT)
    field = page.locator(f"{BLANK} [role=combobox]")
    field.focus()
    page.keyboard.type("driver")
    page.keyboard.press("Tab")
    expect(field).to_have_value("driver")
    assert page.locator(f"{BLANK} select[name=part]").input_value() == ""
    assert not field.evaluate("field => field.checkValidity()")


def test_a_sheet_is_pasted_and_ticked(visit: Visit) -> None:
    """A tick puts a figure into its field as written; the one that is wrong is told at once."""
    page = visit("designer")
    page.goto("/catalogue/add/driver/")
    loads: list[str] = []
    page.on("framenavigated", lambda frame: loads.append(frame.url))
    page.locator("#data-sheet > summary").click()
    page.locator("#sheet-text").fill(SHEET)
    page.get_by_role("button", name="Read its figures").click()
    page.locator("#take-vas").check()
    expect(page.locator("#id_vas")).to_have_value("2.65 cu ft")
    page.locator("#take-vas").uncheck()
    expect(page.locator("#id_vas")).to_have_value("")
    for name in ("qts", "qes", "qms"):
        page.locator(f"#take-{name}").check()
    expect(page.locator("#id_qes_live .field-said")).to_contain_text("0.58")
    assert loads == []


def test_a_route_is_tapped_on_the_car(visit: Visit) -> None:
    """A panel that is tapped is the next place of the route; tapped again it is taken back."""
    page = visit("designer", width=390)
    page.goto(at(f"/jobs/{JOB}/run/{{{ROUTED}}}/"))
    page.locator("details.fold", has=page.locator(".car-plan")).locator("summary").first.click()
    chosen = "all => all.map((one) => one.value).filter(Boolean)"
    before = page.eval_on_selector_all("[name=route-panel]", chosen)
    button = page.locator(".car-plan button", has_text="Boot floor")
    with page.expect_response("**/preview/"):
        button.click()
    key = button.get_attribute("value")
    assert page.eval_on_selector_all("[name=route-panel]", chosen) == [*before, key]
    expect(button).to_have_attribute("aria-pressed", "true")
    with page.expect_response("**/preview/"):
        button.click()
    assert page.eval_on_selector_all("[name=route-panel]", chosen) == before
