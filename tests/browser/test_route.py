"""The places of a run's route are put in order with a thumb."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from tests.browser.server import JOB, ROUTED, at

pytestmark = [pytest.mark.browser, pytest.mark.served]

RUN = f"/jobs/{JOB}/run/{{{ROUTED}}}/"
SHOWN = "[name=route-panel], [name=route-place]"
SAID = "all => all.map(one => one.selectedOptions ? one.selectedOptions[0].text : one.value)"


def _places(page: Page) -> list[str]:
    said = page.eval_on_selector_all(SHOWN, SAID)
    return [word for word in said if word not in {"", "–"}]


def test_a_place_is_moved_forward_and_stays_there(visit: Callable[..., Page]) -> None:
    """The order on the page is the order that is saved; the hand stays where the place went."""
    page = visit("designer", width=390)
    page.goto(at(RUN))
    page.locator("details.fold", has=page.locator("[name=route-panel]")).locator(
        "summary"
    ).first.click()
    before = _places(page)
    assert len(set(before[:2])) == 2
    buttons = page.get_by_role("button", name="Move one place forward")
    with page.expect_response("**/preview/"):
        buttons.first.click()
    moved = [before[1], before[0], *before[2:]]
    assert _places(page) == moved
    # The first place has nowhere to go; the hand stays where the place went.
    assert page.evaluate("document.activeElement.name") == "route-panel"
    assert page.locator("[data-earlier]").first.is_hidden()
    page.get_by_role("button", name="Save and stay").click()
    page.wait_for_load_state()
    assert _places(page) == moved
