"""Lists are typed in place: no page is loaded, nothing typed is lost, the keyboard is enough."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.server import JOB, wait_until

pytestmark = [pytest.mark.browser, pytest.mark.served]

EQUIPMENT = f"/jobs/{JOB}/equipment/"
BLANK = "form[data-blank]"
SAVED = "document.querySelector('.row-says').textContent.includes('Saved')"


def _places(page: Page) -> list[str]:
    return page.eval_on_selector_all("[name=place]", "all => all.map((cell) => cell.value)")


def _loads(page: Page) -> list[str]:
    """Every page that is loaded from now on."""
    loads: list[str] = []
    page.on("framenavigated", lambda frame: loads.append(frame.url))
    return loads


def test_enter_saves_and_goes_on_below(visit: Callable[..., Page]) -> None:
    """Enter stores a row and leads to the same cell of the next, without a load."""
    page = visit("designer")
    page.goto(EQUIPMENT)
    loads = _loads(page)
    first = page.locator("[name=place]").nth(0)
    below = page.locator("[name=place]").nth(1).get_attribute("id")
    first.fill("under the tray")
    with page.expect_response(lambda answer: answer.request.method == "GET"):
        first.press("Enter")
    assert page.evaluate("document.activeElement.id") == below
    wait_until(page, SAVED)
    assert loads == []
    page.reload()
    assert "under the tray" in _places(page)


def test_three_rows_are_added_by_the_keyboard_alone(visit: Callable[..., Page]) -> None:
    """The empty row takes a part and a place; Enter leads to the next empty one."""
    page = visit("designer")
    page.goto(EQUIPMENT)
    loads, before = _loads(page), len(_places(page))
    page.locator(f"{BLANK} [role=combobox]").focus()
    for place in ("sill left", "sill right", "hat shelf"):
        page.keyboard.type("Sallow Air")
        page.keyboard.press("Tab")
        page.keyboard.type(place)
        page.keyboard.press("Enter")
    wait_until(page, f"document.querySelectorAll('[name=place]').length === {before + 3}")
    wait_until(page, f"document.querySelectorAll('{BLANK}').length === 1")
    assert loads == []
    page.reload()
    assert {"sill left", "sill right", "hat shelf"} <= set(_places(page))


def test_a_wrong_cell_keeps_what_was_typed(visit: Callable[..., Page]) -> None:
    """What cannot be read is told at its cell; the row below stays in hand."""
    page = visit("designer")
    page.goto(EQUIPMENT)
    cell = page.locator("[name=quantity]").nth(0)
    cell.fill("a dozen")
    with page.expect_response("**/item/*/"):
        cell.press("Enter")
    told = page.locator(".typed-cell .errorlist").first
    expect(told).to_be_visible()
    assert cell.input_value() == "a dozen"
    assert cell.get_attribute("aria-describedby") == told.get_attribute("id")
    page.on("dialog", lambda dialog: dialog.accept())


def test_two_people_in_one_list(visit: Callable[..., Page]) -> None:
    """Two pages, one row, two cells: both are stored, and each sees the other's."""
    one, two = visit("designer"), visit("consultant")
    one.goto(EQUIPMENT)
    two.goto(EQUIPMENT)
    for page, name, typed in ((one, "place", "roof"), (two, "serial", "ZZ 9")):
        cell = page.locator(f"[name={name}]").nth(0)
        cell.fill(typed)
        cell.press("Enter")
        wait_until(page, SAVED)
    row = two.locator("form.typed-row").filter(has=two.locator("[name=serial]"))
    values = [
        (
            row.nth(n).locator("[name=place]").input_value(),
            row.nth(n).locator("[name=serial]").input_value(),
        )
        for n in range(row.count())
    ]
    assert ("roof", "ZZ 9") in values


def test_rows_are_copied_and_come_off_again(visit: Callable[..., Page]) -> None:
    """Ticked rows are copied at once; the way back stands below the table."""
    page = visit("designer")
    page.goto(EQUIPMENT)
    loads, before = _loads(page), len(_places(page))
    for n in (0, 1):
        page.locator("[name=rows]").nth(n).check()
    page.get_by_role("button", name="Copy").click()
    wait_until(page, f"document.querySelectorAll('[name=place]').length === {before + 2}")
    assert loads == []
    page.locator(".row-news").get_by_role("button", name="Undo").click()
    page.wait_for_load_state()
    assert len(_places(page)) == before


def test_without_a_script_a_row_is_a_plain_form(browser, site) -> None:
    """Where no script runs, Save stores the row and leads back to the list."""
    site.reset()
    context = browser.new_context(
        base_url=site.address, storage_state=site.cookies["designer"], java_script_enabled=False
    )
    page = context.new_page()
    page.goto(EQUIPMENT)
    page.locator("[name=place]").nth(0).fill("behind the seat")
    page.locator(".row-save").nth(0).click()
    page.wait_for_url(f"**{EQUIPMENT}")
    assert page.locator("[name=place][value='behind the seat']").count() == 1
    context.close()
