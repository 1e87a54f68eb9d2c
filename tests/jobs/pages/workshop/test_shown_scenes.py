"""What is said of a pasted data sheet and of the machine is what was let stand."""

from __future__ import annotations

import datetime as dt

import pytest

from jobs.models import Driver, Part
from jobs.pages.workshop.data_sheet import read
from jobs.pages.workshop.part_forms import FORMS
from jobs.pages.workshop.sheet_text import LONGEST_SHEET
from jobs.pages.workshop.upkeep import CertificateEnd, Disk
from tests.approval import figures, hold
from tests.jobs.factories import make_driver
from tests.told import row, rows

pytestmark = pytest.mark.django_db

WHOLE = (
    "fs 40 Hz\nQts 0.4\nVas 60 L\nSd 340 cm²\nRe 3.4 ohm\nXmax 9 mm\nPower 300 W\n"
    "Impedance 4 ohm\nOuter diameter 300 mm\nCutout 277 mm\nDepth 140 mm\n"
)
# A Qts above its Qes, a cut-out wider than the frame: neither can be.
ODD = "fs 40 Hz\nQts 0.5\nQes 0.45\nQms 5\nOuter diameter 270 mm\nCutout diameter 277 mm\n"
AMPLIFIER = "Channels 4\nMinimum load 2 ohm\nFuse 30 A\nIdle current 1 A\n4 x 75 W @ 4 ohm\n"
PASTED = {
    "whole": (WHOLE, "driver", ["fs", "qts", "odd"]),
    "odd": (ODD, "driver", []),
    "two coils": ("Impedance 2 x 4 ohm\nRe 6.8 ohm\n", "driver", []),
    "by qes and cms": (
        WHOLE.replace("Qts", "Qes").replace("Vas 60 L", "Cms 0.3 mm/N"),
        "driver",
        [],
    ),
    "nothing": ("A fine loudspeaker.", "driver", []),
    "long": (WHOLE + " " * (LONGEST_SHEET - len(WHOLE) + 1), "driver", []),
    "as long": (WHOLE + " " * (LONGEST_SHEET - len(WHOLE)), "driver", []),
    "of an amplifier": (AMPLIFIER, "driver", []),
    "amplifier": (AMPLIFIER, "amplifier", ["channels"]),
    "other": ("Weight 2 kg\nfs 40 Hz", "other", []),
}


def _told(text: str, kind: str, taken: list[str], part: Part | None = None) -> dict[str, object]:
    pasted = read(text, kind, FORMS[kind](instance=part or FORMS[kind]._meta.model()), taken)
    lines = (
        (line.reading.field, str(line.label), line.reading.text, line.now, line.doubts, line.taken)
        for line in pasted.lines
    )
    return {"lines": rows(lines), "remarks": pasted.remarks}


def test_what_is_said_of_a_pasted_sheet_is_what_was_let_stand():
    """Figures beside those stored, what contradicts, what is lacking, the sheet of another part."""
    told = {name: _told(*sent) for name, sent in PASTED.items()}
    own = make_driver("Low", fs=40.0, qts=0.4, vas=0.06, sd=0.034, re=3.4, xmax=0.009)
    alike = WHOLE.replace("40 Hz", "41.2 Hz")
    for name, text in {
        "of this one": WHOLE,
        "within three per cent": alike,
        "three of six differ": "fs 50 Hz\nQts 0.5\nVas 70 L\nSd 340 cm²\nRe 3.4 ohm\nXmax 9 mm\n",
        "four of six differ": "fs 50 Hz\nQts 0.5\nVas 70 L\nSd 240 cm²\nRe 3.4 ohm\nXmax 9 mm\n",
        "two of two differ": "fs 50 Hz\nQts 0.5\n",
        "three of three differ": "fs 50 Hz\nQts 0.5\nVas 70 L\n",
    }.items():
        told[name] = _told(text, "driver", [], Driver.objects.get(pk=own.pk))
    hold("reading/pasted", figures(told))


@pytest.mark.parametrize(
    ("free", "total", "percent", "low"),
    [
        (10.0, 100.0, 10, False),
        (9.99, 100.0, 9, True),
        (0.0, 0.0, 0, True),
        (50.9, 100.0, 50, False),
    ],
)
def test_a_disk_is_low_below_a_tenth(free, total, percent, low):
    """What is free is rounded down."""
    disk = Disk(free=free, total=total)
    assert (disk.percent, disk.is_low) == (percent, low)


@pytest.mark.parametrize(("days", "near"), [(30, False), (29, True), (-1, True)])
def test_a_certificate_ends_soon_in_its_last_thirty_days(days, near):
    """One that cannot be read is said to be unknown, not near."""
    at = dt.datetime(2026, 3, 1, tzinfo=dt.UTC)
    assert CertificateEnd(file="own.pem", at=at, days=days).is_near is near
    assert not CertificateEnd(file="own.pem", at=None, days=days).is_near
    assert row(CertificateEnd(file="own.pem", at=at).days) == "0"
