"""Where a limit comes from, said in the reader's language; a published work is left as it is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from acoustics.sources import Source as Acoustic
from wiring.sources import Source as Electric

# What both packages know: a key of one is the key of the other.
COMMON_PRACTICE = _("common practice, no source")
# xgettext:no-python-format
CATALOGUE = _("catalogue, ± 15 %")
# xgettext:no-python-format
FUSE_GUIDE = _("fuse maker's application guide: 75 % of the rating, 0.5 %/°C above 25 °C")
# xgettext:no-python-format
EVEN_PEAK = _("√(f1·f2) of the fitted driver; the 1 % is common practice, no source")
# xgettext:no-python-format
PORT_SPEED = _("5 % of the speed of sound, after R. H. Small, JAES 21 (1973)")
# xgettext:no-python-format
FIVE_PERCENT = _("common practice, no source: 5 %")
# xgettext:no-python-format
TRADE_FIVE_PERCENT = _("the trade's 5 % rule")
# xgettext:no-python-format
THREE_PERCENT = _("ABYC E-11 and ISO 10133, 3 % of 12 V")
# xgettext:no-python-format
FUSE_LAW = _("33 CFR 183.455(c) allows 150 %; 100 % is kept")

SMALL_CABLE = _("UK towing guidance, 5.75 A for 0.65 mm²; 3 A for 0.5 mm², common practice")
GROUND_LIMIT = _("0.5 mΩ above 50 A, common practice; else 2.5 mΩ, AC 43.13-1B, 11-188")

SOURCES: Mapping[str, str | Promise] = {
    Acoustic.COMMON_PRACTICE: COMMON_PRACTICE,
    Acoustic.FIVE_PERCENT: FIVE_PERCENT,
    Acoustic.DRIVER_SHEET: _("the driver's data sheet"),
    Acoustic.SHEET_SIZE: _("the size of the sheet"),
    Acoustic.SMALL_DRIVER: "Small 1972, JAES 20, 383-395",
    Acoustic.SMALL_LEAKAGE: "R. H. Small, JAES 21 (1973), Part III",
    Acoustic.SMALL_PORT: PORT_SPEED,
    Acoustic.SMALL_PORT_AREA: "R. H. Small, JAES 21 (1973), Part II",
    Acoustic.RAYLEIGH_PIPE: "Rayleigh, Theory of Sound II, § 255",
    Acoustic.SMALL_EVEN_PEAK: EVEN_PEAK,
    Acoustic.MORSE_INGARD: "P. M. Morse & K. U. Ingard, Theoretical Acoustics (1968), § 9.5",
    Acoustic.DRAWS: _("2 000 draws of the stated tolerances"),
    Acoustic.WITHIN_FIVE_PERCENT: _("tolerance 0.05"),
    Acoustic.CATALOGUE_FIFTEEN_PERCENT: CATALOGUE,
    Acoustic.TOLERANCE_ASKED: _("the tolerance asked for"),
    Electric.COMMON_PRACTICE: COMMON_PRACTICE,
    # -- sheets of those who make the parts
    Electric.AMPLIFIER_SHEET: _("the amplifier's data sheet"),
    Electric.BATTERY_SHEET: _("the battery's data sheet"),
    Electric.SOURCE_SHEET: _("the data sheet of the source"),
    Electric.TERMINAL_SHEET: _("the terminal maker's sheet"),
    Electric.TERMINAL_MAKERS: _(
        "terminal makers' specifications: copper-only lugs exclude aluminium"
    ),
    Electric.FUSE_GUIDE: FUSE_GUIDE,
    # xgettext:no-python-format
    Electric.FUSE_STANDARD: _("ISO 8820: 110 % for ever, from memory"),
    Electric.CONTACT_SHEET: _("the sheet of the switch, relay or isolator"),
    Electric.PART_SHEET: _("the part maker's sheet"),
    Electric.SMALL_CABLE: SMALL_CABLE,
    Electric.GROUND_LIMIT: GROUND_LIMIT,
    Electric.LUGS: "AC 43.13-1B, 11-174",
    Electric.COMMANDED_CHARGING: _("trade article: 12.5 V or below while charging is let down"),
    Electric.HUM: _("handbook practice"),
    Electric.PARTS_VOLTAGE: _("the part makers' supply voltage"),
    Electric.CABLE_MAKER_IF_LARGER: _("the cable maker's figure if larger"),
    Electric.VEHICLE_INSTRUCTIONS: _("the vehicle maker's instructions"),
    Electric.ACCESSORY_LIMIT: _("the vehicle maker's limit on added load"),
    Electric.TO_BE_ENTERED: _("figure to be entered from the vehicle or part maker's sheet"),
    Electric.BRIEF: _("the brief"),
    # -- law and standards
    Electric.CONDUCTOR_TABLE: "33 CFR 183.425, Table 5",
    Electric.CONDUCTOR_TABLE_OR_MAKER: _("33 CFR 183.425 Table 5 or the cable maker"),
    Electric.CABLE_EDGES: "33 CFR 183.445; ISO 10133:2012, 7.5",
    Electric.FUSE_PLACE: "33 CFR 183.455(b)",
    Electric.FUSE_PLACE_AT_BATTERY: _("ABYC E-11: 72 in on a battery, in a sheath; cars: no rule"),
    Electric.FUSE_RATING: FUSE_LAW,
    Electric.THREE_PERCENT: THREE_PERCENT,
    Electric.BREAKING: _("the larger of E/(R_warm + R_out) and ABYC E-11, Table V-A"),
    Electric.ADIABATIC: "IEC 60364-5-54, I²t = k²S²",
    Electric.CRANKING: _("VW 80000:2013, E-11: up to 10 s"),
    Electric.CODE_A: _("ISO 16750-2, code A: 16 V in a 12 V system"),
    Electric.IN_PROPORTION: _("others in proportion, common practice"),
    Electric.BEND: _("ICEA type rule, 4 × the outer diameter and more"),
    Electric.PULL: _("UL 486A type, copper, 26 AWG to 2/0 AWG"),
    Electric.ORANGE_COVERING: _("UN R100, 5.1.1.5.3: orange covering"),
    Electric.ORANGE_CABLES: _("UN R100, 5.1.1.5.3 (orange cables)"),
    # -- laws of nature and habits of the trade
    Electric.KIRCHHOFF: _("Kirchhoff's laws"),
    Electric.PEUKERT: _("Peukert's law"),
    Electric.FIVE_PERCENT_RULE: TRADE_FIVE_PERCENT,
    Electric.REMOTE_OUTPUTS: _("trade pages, the lowest of 150 to 300 mA"),
    Electric.SERVICE_TEXTS: _("vehicle makers' service texts, the lowest of 50 to 85 mA"),
}


def sources_said(sources: Iterable[str]) -> str:
    """Say where a limit comes from, one source after the other."""
    return "; ".join(str(SOURCES[source]) for source in sources)
