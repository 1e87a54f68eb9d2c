"""What one job costs the hand: an estate car from the first word to its spec, counted.

A click is a press of the mouse, a field a thing typed or chosen, a load a page of the server. Keys
that lead on (Enter, Tab) are counted apart: a hand that types rests on them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import pytest
from playwright.sync_api import Locator, Page

from tests.browser.server import wait_until

pytestmark = [pytest.mark.browser, pytest.mark.served]

# What issue and house ask of a job from nothing.
CLICKS, FIELDS, LOADS = 60, 130, 30


@dataclass
class Hand:
    """A person at the page: everything it does is counted."""

    page: Page
    clicks: int = 0
    fields: int = 0
    keys: int = 0
    loads: int = 0
    by_step: dict[str, tuple[int, int, int, int]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.page.on("framenavigated", lambda frame: self._loaded(frame == self.page.main_frame))

    def _loaded(self, whole: bool) -> None:
        self.loads += whole

    def click(self, what: Locator) -> None:
        """Press something."""
        self.clicks += 1
        what.click()
        self.page.wait_for_load_state()

    def press(self, key: str) -> None:
        """Press a key that leads on."""
        self.keys += 1
        self.page.keyboard.press(key)

    def write(self, where: Locator, text: str) -> None:
        """Type into a field, or choose in it by its words."""
        self.fields += 1
        if where.evaluate("field => field.tagName") == "SELECT":
            where.select_option(label=_option(where, text))
        else:
            where.fill(text)

    def step(self, name: str) -> None:
        """Go to a step of the strip."""
        self.click(self.page.locator(".strip a", has_text=name).first)

    def note(self, name: str) -> None:
        """Write down what was done up to here."""
        self.by_step[name] = (self.clicks, self.fields, self.loads, self.keys)


def _option(where: Locator, text: str) -> str:
    """Return the whole words of the one option that begins with a text, else that contains it."""
    words = [option.strip() for option in where.locator("option").all_inner_texts()]
    first = [word for word in words if word.startswith(text)]
    return (first or [word for word in words if text in word])[0]


def _rows(hand: Hand, table: str, rows: Sequence[dict[str, str]]) -> None:
    """Type rows into the foot of a table, each ended by Enter."""
    page = hand.page
    body = page.locator(f"#{table}")
    before = body.locator(".typed-row:not([data-blank])").count()
    for number, row in enumerate(rows, start=1):
        blank = body.locator("form[data-blank]").last
        for name, text in row.items():
            cell = blank.locator(f"[name={name}]")
            if name == "part":
                hand.fields += 1
                blank.get_by_role("combobox").first.fill(text)
                hand.press("Enter")  # the one it leads to
            else:
                hand.write(cell, text)
                last = cell
        last.focus()
        hand.press("Enter")
        wait_until(
            page,
            f"document.querySelectorAll('#{table} .typed-row:not([data-blank])').length"
            f" === {before + number}",
        )
        wait_until(page, f"document.querySelectorAll('#{table} [data-blank]').length === 1")


def _tick(hand: Hand, table: str, names: Sequence[str], act: str) -> None:
    """Tick rows by what they are called and do one thing to all of them."""
    body = hand.page.locator(f"#{table}")
    before = body.locator(".typed-row:not([data-blank])").count()
    for name in names:
        hand.click(body.get_by_role("checkbox", name=f"Tick: {name}"))
    hand.click(hand.page.locator(f"#{table}-acts").get_by_role("button", name=act))
    wait_until(
        hand.page,
        f"document.querySelectorAll('#{table} .typed-row:not([data-blank])').length"
        f" === {before + len(names)}",
    )


def _begin(hand: Hand) -> None:
    page = hand.page
    page.goto("/")
    hand.loads = 0
    hand.click(page.get_by_role("link", name="Start a job").first)
    for name, text in {
        "new_customer": "Nell Quarry", "maker": "Kilnworks", "model": "Long Six", "year": "2022",
        "plate": "OX 22 NQ", "driver_side": "left", "energy": "combustion",
        "title": "Bass in the boot, better doors",
    }.items():  # fmt: skip
        hand.write(page.locator(f"#id_{name}"), text)
    hand.click(page.locator("main form .main-act").first)
    hand.note("job")
    hand.step("Brief")
    hand.write(page.locator("#id_wishes"), "Deep and clean, the dog keeps its place")
    hand.write(page.locator("#id_programme"), "usual music")
    hand.click(page.get_by_role("button", name="Save", exact=True))
    hand.note("brief")
    hand.step("Car")
    for name, text in {
        "battery_place": "engine bay, left", "battery_chemistry": "lead-acid, absorbed",
        "battery_charge": "70", "charging_source": "alternator", "charging_current": "150",
        "start_stop": "No", "smart_charging": "No", "cabin_volume": "3,4 m³",
        "cabin_length": "2,9 m",
    }.items():  # fmt: skip
        hand.write(page.locator(f"#id_{name}"), text)
    hand.click(page.get_by_role("button", name="Save", exact=True))
    hand.note("car")


def _system(hand: Hand, parts: dict[str, str]) -> None:
    hand.step("Equipment")
    hand.click(hand.page.locator("#item-table form[data-blank] [role=combobox]"))
    _rows(
        hand,
        "item-table",
        [
            {"part": parts["sub"], "place": "box in the boot"},
            {"part": parts["woofer"], "place": "front door left"},
            {"part": parts["tweeter"], "place": "A-pillar left"},
            {"part": parts["amplifier"], "place": "boot, side pocket"},
            {"part": parts["processor"], "place": "boot, side pocket"},
        ],
    )
    pair = [f"{parts['woofer']}, front door left", f"{parts['tweeter']}, A-pillar left"]
    _tick(hand, "item-table", pair, "Make the other side of the car")
    hand.note("equipment")
    hand.step("Channels")
    common = {"source": "head unit", "processor": parts["processor"]}
    amplifier = {"amplifier": parts["amplifier"]}
    _rows(
        hand,
        "channel-table",
        [
            {
                "name": "Tweeter left", **common, "processor_output": "1", **amplifier,
                "amplifier_channel": "1", "speaker": f"{parts['tweeter']}, A-pillar left",
                "highpass_frequency": "3 kHz", "highpass_shape": "Linkwitz–Riley 24",
            },
            {
                "name": "Woofer left", **common, "processor_output": "3", **amplifier,
                "amplifier_channel": "3", "speaker": f"{parts['woofer']}, front door left",
                "highpass_frequency": "70", "highpass_shape": "Butterworth 24",
                "lowpass_frequency": "3 kHz", "lowpass_shape": "Linkwitz–Riley 24",
            },
        ],
    )  # fmt: skip
    _tick(hand, "channel-table", ["Tweeter left", "Woofer left"], "Make the other side of the car")
    _rows(
        hand,
        "channel-table",
        [
            {
                "name": "Bass", **common, "processor_output": "6", **amplifier,
                "amplifier_channel": "5", "speaker": parts["sub"],
                "lowpass_frequency": "70", "lowpass_shape": "Linkwitz–Riley 24",
            }
        ],
    )  # fmt: skip
    hand.note("channels")


def _box(hand: Hand, parts: dict[str, str]) -> None:
    page = hand.page
    hand.step("Box")
    hand.click(page.get_by_role("link", name="Fit a box to a cavity").first)
    corners = [("0", "0"), ("420", "0"), ("330", "400"), ("0", "400")]
    for n, corner in enumerate(corners):
        if n >= page.locator("[name=cavity_profile-x]").count():
            hand.click(page.locator("#id_cavity_profile [data-row-add]"))
        for column, text in zip("xy", corner, strict=True):
            hand.write(page.locator(f"[name=cavity_profile-{column}]").nth(n), text)
    for name, text in {
        "cavity_width": "700 mm", "wanted_volume": "25 L", "driver": parts["sub"],
        "material": "Birch",
    }.items():  # fmt: skip
        hand.write(page.locator(f"#id_{name}"), text)
    hand.click(page.get_by_role("button", name="Look for boxes"))
    hand.click(page.get_by_role("button", name="Build this one").first)
    hand.note("box")


def _car_taken_apart(hand: Hand, parts: dict[str, str]) -> None:
    page = hand.page
    hand.step("Panels")
    hand.write(page.locator("#body"), "estate")
    hand.click(page.get_by_role("button", name="Add them"))
    floor, side = "Boot floor", "Boot side trim, left"
    _rows(
        hand,
        "content-table",
        [
            {"equipment": f"{parts['woofer']}, front door left", "panel": "Front door card, left"},
            {
                "equipment": f"{parts['woofer']}, front door right",
                "panel": "Front door card, right",
            },
            {"equipment": f"{parts['tweeter']}, A-pillar left", "elsewhere": "A-pillar left"},
            {"equipment": f"{parts['tweeter']}, A-pillar right", "elsewhere": "A-pillar right"},
            {"equipment": parts["amplifier"], "panel": side},
            {"equipment": parts["processor"], "panel": side},
            {"box": "Box", "panel": floor},
        ],
    )
    hand.click(page.locator("#all-steps > summary"))  # the usual panels come with steps
    _rows(
        hand,
        "step-table",
        [
            {"panel": "Front door card, left", "text": "Ring, then the woofer."},
            {"panel": side, "text": "Mount the board."},
            {"panel": floor, "text": "Set and fix the box."},
        ],
    )
    hand.note("panels")


def _wiring(hand: Hand, parts: dict[str, str]) -> None:
    page, back = hand.page, {"return_kind": "cable", "return_length": "0,8"}
    hand.step("Wiring")
    _rows(
        hand,
        "node-table",
        [
            {"name": "Battery", "kind": "battery"},
            {"name": "Block", "kind": "distribution block"},
            {"name": "Amp", "kind": "amplifier", "equipment": parts["amplifier"]},
            {"name": "DSP", "kind": "other load", "equipment": parts["processor"]},
        ],
    )
    hand.click(page.locator("#node-table").get_by_role("link", name="DSP"))
    hand.write(page.locator("#id_current"), "1")
    hand.click(page.get_by_role("button", name="Save", exact=True))
    hand.click(page.locator("#node-table").get_by_role("link", name="Battery"))
    hand.write(page.locator("#id_voltage"), "12,7")
    hand.write(page.locator("#id_internal_resistance"), "5 mΩ")
    hand.click(page.get_by_role("button", name="Save", exact=True))
    _rows(
        hand,
        "run-P-table",
        [
            {"start": "Battery", "end": "Block", "length": "5,5", **back},
            {"start": "Block", "end": "Amp", "length": "0,6", **back},
            {"start": "Block", "end": "DSP", "length": "0,8", **back},
        ],
    )
    for kind in ("speaker", "line level or bus", "control"):
        fold = page.locator("details.fold:not([open]) > summary", has_text=kind.capitalize())
        if fold.count():
            hand.click(fold.first)
    pair = "2.5 mm²"
    _rows(
        hand,
        "run-S-table",
        [
            {"channel": "Tweeter left", "conductor": pair, "length": "4"},
            {"channel": "Woofer left", "conductor": pair, "length": "4,5"},
        ],
    )
    ticks = page.locator("#run-S-table").get_by_role("checkbox")
    for n in range(ticks.count()):
        hand.click(ticks.nth(n))
    hand.click(page.locator("#run-S-table-acts").get_by_role("button", name="Make the other side"))
    wait_until(page, "document.querySelectorAll('#run-S-table .typed-row').length === 5")
    _rows(hand, "run-S-table", [{"channel": "Bass", "conductor": pair, "length": "1,2"}])
    hand.click(page.get_by_role("link", name="Choose cables and fuses"))
    hand.click(page.locator("form .main-act", has_text="Put in"))
    hand.note("wiring")


def test_a_job_from_nothing(visit: Callable[..., Page], record_property) -> None:
    """From the first word to a spec, within what a consultant has patience for."""
    hand = Hand(visit("consultant"))
    parts = {
        "sub": "Brackwater Flat 25", "woofer": "Sallow Door 16", "tweeter": "Sallow Air 25",
        "amplifier": "Tolvane Six", "processor": "Ostrell & Pike Eight",
    }  # fmt: skip
    _begin(hand)
    _system(hand, parts)
    _box(hand, parts)
    _car_taken_apart(hand, parts)
    _wiring(hand, parts)
    hand.step("Sheets")
    hand.note("sheets")
    for name, count in hand.by_step.items():
        record_property(name, count)
    assert hand.clicks <= CLICKS, hand.by_step
    assert hand.fields <= FIELDS, hand.by_step
    assert hand.loads <= LOADS, hand.by_step


# The steps of the strip that make up a spec.
SPEC = ("Car", "Channels", "Box", "Wiring", "Panels")


def test_the_second_car_of_a_model(visit: Callable[..., Page], record_property) -> None:
    """A second job of the same model stands as a whole spec after the few clicks of its start."""
    hand = Hand(visit("consultant"))
    page = hand.page
    page.goto("/")
    hand.loads = 0
    hand.click(page.get_by_role("link", name="Start a job").first)
    for name, text in {"maker": "Norvane", "model": "Tarn"}.items():
        hand.fields += 1
        page.locator(f"#id_{name}").press_sequentially(text)
    hand.press("Tab")
    hand.click(page.get_by_role("button", name="Start like J-0001"))
    for name, text in {
        "plate": "OX 23 NQ", "year": "2022", "new_customer": "Nell Quarry",
        "title": "As the other one",
    }.items():  # fmt: skip
        hand.write(page.locator(f"#id_{name}"), text)
    hand.click(page.get_by_role("button", name="Start the job"))
    for step in SPEC:
        # What a car has to be asked for itself is still to be decided; nothing is to be entered.
        stands = page.locator(".strip li", has_text=step).first.inner_text()
        assert not re.search(r"nothing|to come", stands), stands
    record_property("second car", (hand.clicks, hand.fields, hand.loads, hand.keys))
    assert hand.clicks <= 15
