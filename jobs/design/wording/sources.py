"""Where a limit comes from, said in the reader's language; a published work is left as it is."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

# xgettext:no-python-format
CATALOGUE = _("catalogue, ± 15 %")
# xgettext:no-python-format
FUSE_GUIDE = _("fuse maker's application guide: 75 % of the rating, 0.2 %/°C above 25 °C")
# xgettext:no-python-format
EVEN_PEAK = _("√(f1·f2) = fs within 1 %: R. H. Small, JAES 20 (1972); the 1 % is common practice")
# xgettext:no-python-format
FIVE_PERCENT = _("common practice, no source: 5 %")
# xgettext:no-python-format
TRADE_FIVE_PERCENT = _("the trade's 5 % rule")
# xgettext:no-python-format
THREE_PERCENT = _("ABYC E-11 and ISO 10133, 3 % of 12 V")
# xgettext:no-python-format
FUSE_LAW = _("33 CFR 183.455(c) allows 150 %; 100 % is kept")

SOURCES: dict[str, Promise] = {
    "common practice, no source": _("common practice, no source"),
    "engineering guidance, common practice, no source": _("common practice, no source"),
    "common practice, no source: 5 %": FIVE_PERCENT,
    "the trade's 5 % rule": TRADE_FIVE_PERCENT,
    "trade pages, lowest of 150 to 300 mA": _("trade pages, the lowest of 150 to 300 mA"),
    "vehicle makers' service texts, the lowest of 50 to 85 mA": _(
        "vehicle makers' service texts, the lowest of 50 to 85 mA"
    ),
    # -- sheets of those who make the parts
    "the driver's data sheet": _("the driver's data sheet"),
    "driver's sheet, or motor and basket as solids": _(
        "the driver's data sheet, or motor and basket as solids"
    ),
    "amplifier's sheet": _("the amplifier's data sheet"),
    "amplifier maker's sheet": _("the amplifier's data sheet"),
    "battery's sheet": _("the battery's data sheet"),
    "sheet of the source": _("the data sheet of the source"),
    "terminal maker's sheet": _("the terminal maker's sheet"),
    "terminal makers' specifications: copper-only lugs exclude aluminium": _(
        "terminal makers' specifications: copper-only lugs exclude aluminium"
    ),
    "vehicle maker's instructions": _("the vehicle maker's instructions"),
    "vehicle maker's limit on added load": _("the vehicle maker's limit on added load"),
    "figure to be entered from the vehicle or part maker's sheet": _(
        "figure to be entered from the vehicle or part maker's sheet"
    ),
    "part makers' supply voltage": _("the part makers' supply voltage"),
    "fuse maker's application guide, 75 % of the rating, 0.2 %/°C above 25 °C": FUSE_GUIDE,
    "cable maker's figure if larger": _("the cable maker's figure if larger"),
    "ICEA type rule, 4 × the outer diameter and more": _(
        "ICEA type rule, 4 × the outer diameter and more"
    ),
    # -- rules with a word of ours beside them
    "33 CFR 183.425 Table 5 or the cable maker": _("33 CFR 183.425 Table 5 or the cable maker"),
    "33 CFR 183.455(c) allows 150 %, 100 % is kept": FUSE_LAW,
    "ISO 16750-2, code A: 16 V in a 12 V system": _("ISO 16750-2, code A: 16 V in a 12 V system"),
    "others in proportion, common practice": _("others in proportion, common practice"),
    "UN R100, 5.1.1.5.3: orange covering": _("UN R100, 5.1.1.5.3: orange covering"),
    "UN R100, 5.1.1.5.3 (orange cables)": _("UN R100, 5.1.1.5.3 (orange cables)"),
    "largest of E/(R_warm + R_out) and ABYC E-11 Table V-A": _(
        "the larger of E/(R_warm + R_out) and ABYC E-11, Table V-A"
    ),
    "ABYC E-11 and ISO 10133, 3 % of 12 V": THREE_PERCENT,
    "UL 486A type, copper, 26 AWG to 2/0 AWG": _("UL 486A type, copper, 26 AWG to 2/0 AWG"),
    "sqrt(f1 f2) = fs within 1 %: R. H. Small, JAES 20 (1972); the 1 % is common practice": (
        EVEN_PEAK
    ),
    # -- how it was worked out
    "tolerance 0.05": _("tolerance 0.05"),
    "Kirchhoff's laws": _("Kirchhoff's laws"),
    "Peukert's law": _("Peukert's law"),
    "the brief": _("the brief"),
    "catalogue, ± 15 %": CATALOGUE,
    "2 000 draws of the stated tolerances": _("2 000 draws of the stated tolerances"),
    "Helmholtz resonance": _("Helmholtz resonance"),
    "ρ v d / η, d = 4 area / rim": _("ρ v d / η, d = 4 area / rim"),
    "air at 20 °C": _("air at 20 °C"),
    "sum over the cut list": _("sum over the cut list"),
    "the size of the sheet": _("the size of the sheet"),
    "circuit of driver and box, solved at each frequency": _(
        "circuit of driver and box, solved at each frequency"
    ),
    "tuning less both end corrections": _("tuning less both end corrections"),
    "speaker run of the channel; not known counts as none, where the cone moves most": _(
        "speaker run of the channel; not known counts as none, where the cone moves most"
    ),
}
