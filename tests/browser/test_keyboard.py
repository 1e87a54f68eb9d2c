"""The whole of an instrument without a mouse, and what a person at 200 % zoom still has in view."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.server import BRANCH, JOB, at

pytestmark = [pytest.mark.browser, pytest.mark.served]

Visit = Callable[..., Page]
BOX = f"/jobs/{JOB}/box/{{box}}/"
RUN = f"/jobs/{JOB}/run/{{{BRANCH}}}/"
MOST_STOPS = 400

# Everything a person can reach, as the page lays it out.
REACHABLE = """() => [...document.querySelectorAll(
  "a[href], button, input:not([type='hidden']), select, textarea, summary, [tabindex='0']"
)].filter((one) => one.tabIndex >= 0 && !one.disabled
  && one.checkVisibility({ visibilityProperty: true })).length"""
# Where the focus is: its name, and whether anything pinned lies over it.
HERE = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  one.dataset.stop ||= String(window.stops = (window.stops || 0) + 1);
  const box = one.getBoundingClientRect();
  const x = (Math.max(box.left, 0) + Math.min(box.right, innerWidth)) / 2;
  const over = document.elementFromPoint(x, box.y + box.height / 2);
  const outline = getComputedStyle(one);
  return {
    stop: Number(one.dataset.stop),
    what: `${one.tagName} ${one.id || one.textContent.trim().slice(0, 40)}`,
    hidden: box.bottom <= 0 || box.top >= innerHeight
      || !(over && (one.contains(over) || over.contains(one) || one.labels?.[0]?.contains(over))),
    ring: outline.outlineStyle !== "none" && parseFloat(outline.outlineWidth) >= 1.5,
  };
}"""


@pytest.mark.parametrize("address", [BOX, RUN, f"/jobs/{JOB}/power/"], ids=["box", "run", "power"])
@pytest.mark.parametrize("width", [1440, 390])
def test_tab_reaches_everything_in_sight(visit: Visit, address: str, width: int) -> None:
    """Tab walks past every control once, each shows a ring, and none is under something pinned."""
    page = visit("designer", width=width)
    page.goto(at(address))
    page.wait_for_load_state("networkidle")
    wanted = page.evaluate(REACHABLE)
    seen: dict[int, str] = {}
    covered, ringless = [], []
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        here = page.evaluate(HERE)
        if here is None or here["stop"] in seen:
            break
        seen[here["stop"]] = here["what"]
        # WCAG 2.2, 2.4.7 and 2.4.11: the focus is seen and not wholly covered.
        covered += [here["what"]] if here["hidden"] else []
        ringless += [] if here["ring"] else [here["what"]]
    assert covered == []
    assert ringless == []
    assert len(seen) >= wanted


@pytest.mark.parametrize(
    ("width", "end"),
    [(1440, "study"), (390, "targets"), *(
        pytest.param(width, end, marks=pytest.mark.long)
        for width in (1440, 390)
        for end in ("study", "cabin", "fit", "targets")
        if (width, end) not in {(1440, "study"), (390, "targets")}
    )],
)  # fmt: skip
def test_what_comes_later_takes_no_focus(visit: Visit, width: int, end: str) -> None:
    """What is fetched as it comes into view takes the focus neither away nor out of sight."""
    page = visit("designer", width=width)
    waiting: list[Route] = []
    page.route(re.compile("/(study|cabin|targets)/$"), lambda route: waiting.append(route))
    page.goto(at(BOX))
    page.evaluate("document.getElementById('box-further').open = true")
    page.keyboard.press("Tab")
    with page.expect_request("**/study/"), page.expect_request("**/cabin/"):
        page.locator(f"#preview a[href$='/{end}/']").focus()
    assert not page.evaluate(HERE)["hidden"]
    for route in waiting:
        route.continue_()
    expect(
        page.locator("#preview").locator("a[href$='/study/'], a[href$='/cabin/']")
    ).to_have_count(0)
    here = page.evaluate(HERE)
    assert here is not None
    assert not here["hidden"]
    assert here["ring"]


def test_a_box_is_drawn_up_and_saved_by_keys(visit: Visit) -> None:
    """Kind, size and wood are chosen, turned and saved without a mouse."""
    page = visit("designer")
    page.goto(f"/jobs/{JOB}/box/add/")
    page.locator("#id_name").focus()
    page.keyboard.type("Box by keys")
    page.locator("#id_driver").focus()
    page.keyboard.press("ArrowDown")
    for field, text in (("width", "400"), ("height", "350"), ("depth", "300")):
        page.locator(f"#id_{field}").focus()
        page.keyboard.type(text)
    page.locator("#id_width").focus()
    with page.expect_response("**/preview/"):
        page.keyboard.press("ArrowUp")
    assert page.locator("#id_width").input_value() != "400"
    page.keyboard.press("Control+z")
    page.keyboard.press("Enter")
    page.wait_for_url("**/boxes/")
    expect(page.locator("main")).to_contain_text("Box by keys")


def test_nothing_is_lost_on_the_way_back(visit: Visit) -> None:
    """Who follows a link out of a half-typed form and comes back finds everything as typed."""
    page = visit("consultant")
    page.goto(f"/jobs/{JOB}/brief/")
    page.locator("#id_listening").fill("Choirs, quietly, on the rear seats")
    page.on("dialog", lambda box: box.accept())
    page.locator(".strip a", has_text="Car").click()
    page.wait_for_url("**/car/")
    page.go_back()
    expect(page.locator("#id_listening")).to_have_value("Choirs, quietly, on the rear seats")
    expect(page.locator(".restored")).to_be_visible()


def test_every_removal_offers_a_way_back(visit: Visit) -> None:
    """Whatever can be removed comes back with one press."""
    page = visit("manager")
    for slug in ("item", "channel", "box", "node", "run", "panel", "step", "content", "factory"):
        page.goto(at(f"/jobs/{JOB}/{slug}/{{{slug}}}/"))
        page.get_by_role("button", name="Remove").click()
        page.get_by_role("button", name="Undo").click()
        expect(page.locator(".message"), slug).to_contain_text("Back again")
    page.goto(at("/catalogue/{part}/"))
    page.get_by_role("button", name=re.compile("Remove")).click()
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".message")).to_contain_text("Back again")


def test_more_than_a_second_shows_progress(visit: Visit) -> None:
    """A page that is slow to come says that it is being worked on."""
    page = visit("designer")
    page.goto(at(BOX))
    waiting: list[Route] = []
    page.route("**/preview/", lambda route: waiting.append(route))
    busy = page.locator("#busy")
    expect(busy).to_be_hidden()
    page.locator("#id_width").fill("333 mm")
    expect(busy).to_be_visible()
    for route in waiting:
        route.fulfill(status=204)
    expect(busy).to_be_hidden()


def test_still_for_those_who_ask_for_it(visit: Visit) -> None:
    """With reduced motion nothing is animated."""
    page = visit("designer")
    page.emulate_media(reduced_motion="reduce")
    page.goto(at(BOX))
    page.evaluate("document.getElementById('busy').hidden = false")
    moving = page.evaluate(
        "document.getAnimations().filter((one) => one.effect.getTiming().iterations > 1).length"
    )
    assert moving == 0


@pytest.mark.parametrize("address", [BOX, RUN, f"/jobs/{JOB}/power/", f"/jobs/{JOB}/car/"])
def test_two_hundred_percent_fits(visit: Visit, address: str) -> None:
    """At 200 % zoom of a small laptop nothing is cut off and pinned parts leave room to work."""
    page = visit("designer", width=640, height=400)  # 1280 by 800 at 200 %
    page.goto(at(address))
    wider = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(wider) <= 0
    pinned = page.evaluate(
        """() => [...document.querySelectorAll("main *")]
          .filter((one) => ["fixed", "sticky"].includes(getComputedStyle(one).position))
          .reduce((sum, one) => sum + one.getBoundingClientRect().height, 0)"""
    )
    assert pinned < 130
