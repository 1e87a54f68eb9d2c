"""The drawing surface: every task by keys alone, a drag in time, what is wrong told."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.server import JOB, at, crowded

pytestmark = [pytest.mark.browser, pytest.mark.served]

Visit = Callable[..., Page]
BOX = f"/jobs/{JOB}/box/{{box}}/"
FIT = f"/jobs/{JOB}/box/{{box}}/fit/"
# The house's promise for an outline that follows the hand [ms].
AT_HAND = 50.0
CLOCK = """() => {
  window.waits = [];
  let since = 0;
  document.querySelector(".surface svg").addEventListener("pointermove", () => { since = performance.now(); }, true);
  new MutationObserver(() => {
    if (!since) return;
    const from = since;
    since = 0;
    requestAnimationFrame(() => requestAnimationFrame(() => window.waits.push(performance.now() - from)));
  }).observe(document.querySelector(".surface .lines"), { childList: true });
}"""  # noqa: E501
# A grey picture, 40 × 20, that a browser makes and a test chooses as a photo.
PHOTO = """() => new Promise((done) => {
  const sheet = Object.assign(document.createElement("canvas"), { width: 40, height: 20 });
  sheet.getContext("2d").fillRect(0, 0, 40, 20);
  sheet.toBlob(async (blob) => done([...new Uint8Array(await blob.arrayBuffer())]));
})"""


def _corners(page: Page, name: str = "cavity_profile") -> list[tuple[str, str]]:
    """The corners of the table, as they stand in it."""
    across, up = (
        [cell.input_value() for cell in page.locator(f"[name={name}-{axis}]").all()]
        for axis in ("x", "y")
    )
    return [corner for corner in zip(across, up, strict=True) if corner != ("", "")]


def _press(page: Page, name: str) -> None:
    button = page.get_by_role("button", name=name, exact=True)
    button.focus()
    page.keyboard.press("Enter")


def _type(page: Page, size: str, text: str) -> None:
    page.locator(f"[data-size={size}]").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type(text)
    page.keyboard.press("Enter")


def test_a_cavity_is_drawn_up_by_keys_alone(visit: Visit) -> None:
    """Measured at stations, moved, typed, bowed, blocked, crossed, scaled over a photo, undone."""
    page = visit("designer")
    page.goto(at(FIT))
    says, hold = page.locator(".surface-says"), page.locator(".hold[tabindex='0']")
    expect(hold).to_have_count(1)
    as_loaded = _corners(page)

    page.locator("[data-stations] summary").focus()
    page.keyboard.press("Enter")
    for n, pair in enumerate([("0", "400"), ("200", "400"), ("500", "150")]):
        for column, text in enumerate(pair):
            cell = page.locator("[data-stations] tbody tr").nth(n).locator("input").nth(column)
            cell.focus()
            page.keyboard.type(text)
    _press(page, "Draw the outline")
    drawn = [("0", "0"), ("500", "0"), ("500", "150"), ("200", "400"), ("0", "400")]
    assert _corners(page) == [(f"{x} mm", f"{y} mm") for x, y in drawn]

    # Arrow keys move the corner in hand, page down takes the next one.
    expect(hold).to_be_focused()
    page.keyboard.press("PageDown")
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("ArrowRight")
    assert _corners(page)[1] == ("511 mm", "0 mm")
    expect(hold).to_have_attribute("aria-label", "corner 2: across 511 mm, up 0 mm")
    _type(page, "before", "480")
    assert _corners(page)[1] == ("480 mm", "0 mm")
    _type(page, "angle", "90")
    assert _corners(page)[2][0] == "480 mm"
    _type(page, "bow", "30")
    assert page.locator("[name=cavity_profile-bow]").nth(1).input_value() == "30 mm"
    _type(page, "bow", "300")
    expect(says).to_have_text("An arc is half a circle at most.")
    _type(page, "before", "0")
    expect(says).to_have_text("A length is more than nothing.")
    _type(page, "x", "1000000000")
    expect(says).to_have_text("This is larger than anything in a car.")

    # A figure that was measured is noted, and a corner added and taken out.
    page.get_by_text("Snap to what was measured").focus()
    page.keyboard.press("Enter")
    page.locator("[data-size=noted]").focus()
    page.keyboard.type("433")
    _press(page, "Note it")
    expect(page.get_by_role("button", name="forget 433 mm")).to_be_visible()
    _press(page, "Add a corner")
    assert len(_corners(page)) == 6
    page.keyboard.press("Delete")
    assert len(_corners(page)) == 5

    _press(page, "Add a block")
    assert page.locator("[name=cavity_obstacles-depth]").first.input_value() == "100 mm"
    page.keyboard.press("Delete")
    assert page.locator("[name=cavity_obstacles-depth]").first.input_value() == ""

    # An outline that crosses itself is told and stays as it was drawn.
    page.locator(".hold").first.focus()
    for _ in range(60):
        page.keyboard.press("Shift+ArrowRight")
    expect(says).to_contain_text("Two edges cross")
    page.keyboard.press("Control+z")
    expect(says).not_to_contain_text("Two edges cross")

    _scale_a_photo(page)
    for _ in range(30):
        page.keyboard.press("Control+z")
    assert _corners(page) == as_loaded

    # A slip of many digits is drawn on coarser paper: the page stays alive.
    page.locator("[name=cavity_profile-x]").nth(1).fill("9" * 20)
    page.wait_for_timeout(300)
    assert page.locator(".surface svg *").count() < 200


def _scale_a_photo(page: Page) -> None:
    """A photo without a scale says so; two points of it, set by keys, give it one."""
    says = page.locator(".surface-says")
    page.get_by_text("Photo underneath").focus()
    page.keyboard.press("Enter")
    picture = {"name": "boot.png", "mimeType": "image/png", "buffer": bytes(page.evaluate(PHOTO))}
    page.locator("[data-photo-file]").set_input_files(picture)
    expect(says).to_contain_text("no scale yet")
    _press(page, "Scale by two taps")
    expect(says).to_contain_text("Type the known length first")
    page.locator("[data-photo-length]").focus()
    page.keyboard.type("600")
    _press(page, "Scale by two taps")
    page.keyboard.press("Enter")
    for _ in range(5):
        page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Enter")
    expect(says).to_have_text("")
    assert "matrix3d" in page.locator("[data-photo]").evaluate("one => one.style.transform")
    _press(page, "Take the photo away")


def test_the_box_follows_the_hand(visit: Visit) -> None:
    """The litres follow a dragged corner, and it is one step to undo."""
    page = visit("designer", height=1000)
    page.goto(at(BOX))
    depth = page.locator("#id_depth")
    was, litres = depth.input_value(), page.locator("#preview .results").inner_text()
    place = page.locator("[data-surface=bench] .hold").first.bounding_box()
    assert place
    x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for n in range(1, 10):
        page.mouse.move(x + 4 * n, y)
    page.mouse.up()
    expect(depth).not_to_have_value(was)
    expect(page.locator("#preview .results")).not_to_have_text(litres)
    page.get_by_role("button", name="Undo").click()
    expect(depth).to_have_value(was)


@pytest.mark.bench
def test_the_picture_keeps_up_with_the_hand(visit: Visit) -> None:
    """Half of all moves are painted within 50 ms of a quiet machine."""
    page = visit("designer", height=1000)
    page.goto(at(BOX))
    place = page.locator("[data-surface=bench] .hold").first.bounding_box()
    assert place
    x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
    page.evaluate(CLOCK)
    before = crowded()
    page.mouse.move(x, y)
    page.mouse.down()
    for n in range(1, 10):
        page.mouse.move(x + 4 * n, y)
    page.mouse.up()
    page.get_by_role("button", name="Undo").click()
    waits = sorted(page.evaluate("window.waits"))
    assert len(waits) > 3
    assert waits[len(waits) // 2] < AT_HAND * max(1.0, before, crowded())


def test_what_sits_in_a_face_is_moved_there(visit: Visit) -> None:
    """The face with the driver is a view of its own; a key moves the driver and its figures."""
    page = visit("designer")
    page.goto(at(BOX))
    page.get_by_role("radio", name="Front").focus()
    page.keyboard.press("Space")
    driver = page.locator("[data-surface=bench] .hold")
    expect(driver).to_have_count(1)
    driver.focus()
    with page.expect_response("**/preview/"):
        page.keyboard.press("Shift+ArrowUp")
    expect(page.locator("#id_driver_v")).to_have_value("190 mm")


def test_two_hands_on_one_corner_lose_neither(visit: Visit) -> None:
    """The second to save is told, and both outlines stand side by side."""
    pages = [visit(who) for who in ("designer", "consultant")]
    for page in pages:
        page.goto(at(BOX))
        page.locator("#fold-cavity summary").first.click()
    for page, text in zip(pages, ("400 mm", "410 mm"), strict=True):
        page.locator("[name=cavity_profile-x]").nth(1).fill(text)
        page.get_by_role("button", name="Save and stay").click()
        page.wait_for_load_state()
    told = pages[1].locator(".versions")
    expect(told).to_contain_text("400 mm")
    expect(told).to_contain_text("410 mm")
    expect(pages[1].locator("[name=cavity_profile-x]").nth(1)).to_have_value("410 mm")


@pytest.mark.parametrize(("width", "height", "screens"), [(1440, 900, 2.5), (390, 844, 6.0)])
def test_the_box_page_is_short(visit: Visit, width: int, height: int, screens: float) -> None:
    """Drawing, figures and groups fit a few screens."""
    page = visit("designer", width=width, height=height)
    page.goto(at(BOX))
    expect(page.locator("[data-surface=bench] .hold").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollHeight") <= screens * height
