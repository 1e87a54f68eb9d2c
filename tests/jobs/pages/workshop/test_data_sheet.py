"""A pasted data sheet: figures with their units, beside where they stood, taken one by one.

The sheets are invented; what they are written like is common practice, no source. Conversions are
held against exact definitions: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 oz = 1/16 lb.
"""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import Driver, Part
from jobs.pages.workshop.part_forms import FORMS
from jobs.pages.workshop.sheet_text import SAME, _apart, other_kind, read_sheet
from tests.jobs.pages.kinds import typed

INCH, POUND = 0.0254, 0.45359237
FOOT = 12 * INCH

PROSE = """Sub 25, woofer 10 in
Nominal impedance: 2 x 4 Ω
DC resistance Re 1.7 ohms
Fs (Hz) 28
Qts 0.522   Qes 0,58   Qms 5.2
Vas 2.65 cu ft (75 L)
Sd [cm²]: 495
Le @ 1 kHz: 1.2 mH
Mms 149.7 g
Cms: 0.216 mm/N
Rms: 5.06 kg/s
BL: 12.42 T·m
Xmax ± 12 mm
Power handling RMS 300 W
Max power 600 W
Sensitivity 1 W/1 m 88 dB
Overall diameter 10 5/8 in
Cut-out diameter 9 1/4"
Mounting depth 5.3 in
Net weight 12 lbs 4 oz
Magnet diameter
"""
TABLE = """| Parameter | Value |
| Resonance frequency | 28 Hz |
| Total Q | 0.522 |
| Moving mass | 5.28 oz |
| Cone area | 76.7 sq in |
| Linear excursion | 24 mm p-p |
| Voice coil inductance | 1.2 |
| DC resistance | 3.4 Q |
"""
ACROSS = "Fs\tQts\tQes\tQms\tVas\n28 Hz\t0.522\t0.58\t5.2\t75 L\n"
AMPLIFIER = """Channels 4
4 x 100 W @ 4 ohm
Minimum load 2 ohm; minimum load bridged 4 ohm
Idle current 1.2 A
Operating voltage 9 - 16 V
Fuse rating 2 x 40 A
Efficiency 78 %
Weight 3.2 kg
"""


def _read(text, kind=Part.Kind.DRIVER):
    form = FORMS[kind](instance=FORMS[kind]._meta.model())
    return {reading.field: reading for reading in read_sheet(text, kind, form.fields)}


def _values(text, kind=Part.Kind.DRIVER):
    return {name: reading.value for name, reading in _read(text, kind).items() if reading.text}


def test_a_sheet_in_sentences_inches_and_ounces():
    """Each figure is read with the unit it stands in, whichever of two systems that is."""
    assert _values(PROSE) == pytest.approx(
        {
            "fs": 28.0,
            "qts": 0.522,
            "qes": 0.58,
            "qms": 5.2,
            "vas": 2.65 * FOOT**3,
            "sd": 0.0495,
            "re": 1.7,
            "le": 0.0012,
            "mms": 0.1497,
            "cms": 0.216e-3,
            "rms": 5.06,
            "bl": 12.42,
            "xmax": 0.012,
            "power": 300.0,
            "sensitivity": 88.0,
            "nominal_impedance": 4.0,
            "coils": 2,
            "outer_diameter": 10.625 * INCH,
            "cutout_diameter": 9.25 * INCH,
            "depth": 5.3 * INCH,
            "mass": 12.25 * POUND,
        }
    )


def test_a_prefix_of_the_unit_counts():
    """3400 milliohms and 0.0034 kilohms are 3.4 ohms, whatever a camera made of the sign."""
    for said in ("3400 mΩ", "0.0034 kΩ", "3.4 Ω", "3.4 Q"):
        assert _values(f"DC resistance Re: {said}") == {"re": pytest.approx(3.4)}, said


def test_half_a_table_is_told():
    """What is named without its figure stands there as named, and nothing is made up for it."""
    reading = _read(PROSE)["magnet_diameter"]
    assert not reading.text
    assert "no figure" in reading.doubt


def test_a_table_down_the_page():
    """Rows of name and value are read; travel both ways is halved, a lost unit is named."""
    readings = _read(TABLE)
    values = {name: reading.value for name, reading in readings.items()}
    assert values == pytest.approx(
        {
            "fs": 28.0,
            "qts": 0.522,
            "mms": 5.28 * POUND / 16,
            "sd": 76.7 * INCH**2,
            "xmax": 0.012,
            "le": 0.0012,
            "re": 3.4,
        }
    )
    assert "half" in readings["xmax"].doubt
    assert "mH" in readings["le"].doubt
    assert not readings["fs"].doubt


def test_a_table_across_the_page():
    """A line of names above a line of figures is read as pairs."""
    assert _values(ACROSS) == pytest.approx(
        {"fs": 28.0, "qts": 0.522, "qes": 0.58, "qms": 5.2, "vas": 0.075}
    )


def test_an_amplifier():
    """A range gives both ends; two fuses are told, for one figure cannot be both."""
    readings = _read(AMPLIFIER, Part.Kind.AMPLIFIER)
    values = {name: reading.value for name, reading in readings.items()}
    assert values == pytest.approx(
        {
            "channels": 4,
            "lowest_load": 2.0,
            "lowest_load_bridged": 4.0,
            "quiescent_current": 1.2,
            "minimum_voltage": 9.0,
            "highest_voltage": 16.0,
            "fuse_rating": 40.0,
            "efficiency": 0.78,
            "mass": 3.2,
        }
    )
    assert "2 ×" in readings["fuse_rating"].doubt


@pytest.mark.parametrize(
    ("line", "field", "doubt"),
    [
        ("Vas 75 L / 3.9 cu ft", "vas", "Also"),
        ("Fs 28 Hz\nResonance 32 Hz", "fs", "twice"),
        ("Xmax 4 m", "xmax", "at most"),
        ("Fs 28", "fs", "No unit"),
        ("Sensitivity 1 W/1 m 88 dB", "sensitivity", "8 Ω"),
    ],
)
def test_what_is_doubtful_is_told(line, field, doubt):
    """Two figures for one, one beyond its limit, one without a unit: shown, with the doubt."""
    assert doubt in _read(line)[field].doubt


@pytest.mark.parametrize(
    ("line", "field"),
    [
        ("Max power 600 W", "power"),  # of a moment, not for long
        ("300 W RMS", "rms"),  # a power, not a mechanical loss
        ("Fs 12 mm", "fs"),  # a length is no frequency
        ("Sensitivity 88 dB", "power"),
    ],
)
def test_what_is_no_figure_of_this_name_is_left(line, field):
    """A number of another kind beside a name is not taken for it."""
    assert field not in _values(line)


def test_the_sheet_of_another_kind_is_known():
    """An amplifier's sheet pasted for a driver is told from a driver's own."""
    assert other_kind(AMPLIFIER, Part.Kind.DRIVER) == Part.Kind.AMPLIFIER
    assert other_kind(PROSE, Part.Kind.DRIVER) is None
    assert other_kind(AMPLIFIER, Part.Kind.AMPLIFIER) is None


pages = pytest.mark.django_db


def _send(client, kind="driver", *, text=PROSE, script=True, **more):
    headers = {"HX-Request": "true"} if script else {}
    return client.post(reverse("part-sheet", args=[kind]), {"sheet": text, **more}, headers=headers)


@pages
def test_figures_are_shown_beside_what_was_read(browse):
    """Each figure has its line of the sheet beside it and a tick that is not set."""
    answer = _send(browse("consultant"))
    assert answer.status_code == 200
    html = " ".join(answer.content.decode().split())
    assert "Vas 2.65 cu ft (75 L)" in html
    assert 'data-into="id_vas" data-text="2.65 cu ft"' in html
    assert "checked" not in html
    assert "<html" not in html


@pages
def test_what_the_sheet_contradicts_is_told_at_the_figure(browse):
    """A Qes misread by ten, and a cut-out wider than the flange, are told before they are taken."""
    text = PROSE.replace("0,58", "5,8").replace('9 1/4"', '11 1/4"')
    sheet = _send(browse("consultant"), text=text).context["sheet"]
    doubts = {line.reading.field: line.doubts for line in sheet.lines if line.doubts}
    assert set(doubts) == {"qes", "cutout_diameter", "magnet_diameter", "sensitivity"}
    assert "0.58" in doubts["qes"][0]


@pages
def test_only_what_is_ticked_is_taken_and_nothing_is_saved(browse):
    """Without a script the ticked figures stand in the form, as they were written, unsaved."""
    before = Part.objects.count()
    answer = _send(browse("consultant"), script=False, take="1", figure=["vas", "fs"])
    form = answer.context["form"]
    assert (form["vas"].value(), form["fs"].value()) == ("2.65 cu ft", "28 Hz")
    assert not form["qts"].value()
    assert 'value="2.65 cu ft"' in answer.content.decode()
    assert Part.objects.count() == before
    sent = typed(form) | {"name": "Sub 25"}
    assert browse("consultant").post(reverse("part-add", args=["driver"]), sent).status_code == 302
    assert Driver.objects.get(name="Sub 25").vas == pytest.approx(2.65 * FOOT**3)


@pages
def test_the_text_of_another_part_is_asked_about(shelf, browse):
    """Figures that mostly differ from those stored are another part's; those missing are named."""
    woofer = shelf["woofer"]
    sheet = _send(browse("consultant"), row=woofer.pk).context["sheet"]
    assert any("another part" in remark for remark in sheet.remarks)
    assert any(
        "amplifier" in r
        for r in _send(browse("consultant"), text=AMPLIFIER).context["sheet"].remarks
    )
    short = _send(browse("consultant"), text="Fs 28 Hz").context["sheet"]
    assert any("Xmax" in remark for remark in short.remarks)


@pages
def test_the_powers_of_an_amplifier_are_named(browse):
    """What is a list of rows in the form is named as it stands, to be typed there."""
    remarks = _send(browse("consultant"), "amplifier", text=AMPLIFIER).context["sheet"].remarks
    assert any("100 W @ 4 ohm" in remark for remark in remarks)


@pages
@pytest.mark.parametrize(
    "text", ["", "   \n\n", "Grüße\0", "x" * 30_000, "1/0 in " * 500, "|" * 999]
)
def test_what_is_no_sheet_is_told(browse, text):
    """Nothing to read is told in a sentence, however it looks."""
    answer = _send(browse("consultant"), text=text)
    assert answer.status_code == 200
    assert any("recognised" in remark for remark in answer.context["sheet"].remarks)


@pages
def test_who_may_paste(shelf, browse):
    """Who decides about parts; 404 for a stranger and an unknown kind or part, 405 to read."""
    url = reverse("part-sheet", args=["driver"])
    assert browse("stranger").post(url).status_code == 404
    assert browse("installer").post(url).status_code == 403
    client = browse("consultant")
    assert client.get(url).status_code == 405
    assert client.post(reverse("part-sheet", args=["nothing"])).status_code == 404
    assert client.post(url, {"row": str(shelf["six"].pk)}).status_code == 404
    assert client.post(url, {"row": "999999"}).status_code == 404


@pytest.mark.parametrize(
    ("value", "other", "apart"),
    [
        (1.0, 1.0, False),
        (100.0, 100.0 * (1 + 0.5 * SAME), False),
        (100.0, 100.0 * (1 + 2 * SAME), True),
        ("copper", "copper", False),
        ("copper", "aluminium", True),
        (1.0, "1", True),
    ],
)
def test_two_readings_are_one_within_what_is_rounded(value, other, apart):
    """Figures by their share, words to the letter."""
    assert _apart(value, other) is apart
