"""What data sheets call the figures of a part; words of the trade, read by `sheet_text`."""

from __future__ import annotations

import re
from collections.abc import Mapping

from jobs.models import Part

# Field -> what stands before its figure on a sheet. Whole words, in any case; the longest that
# stands on a line names it, so that "fuse rating" is no "fuse".
_EVERY: Mapping[str, str] = {"mass": "net weight|weight|total mass|gewicht|gesamtgewicht"}
_DRIVER: Mapping[str, str] = {
    "fs": "fs|f0|fo|free[- ]air resonance|resonance frequency|resonance|resonanzfrequenz",
    "qts": "q ?ts|total q|gesamtgüte",
    "qes": "q ?es|electrical q|elektrische güte",
    "qms": "q ?ms|mechanical q|mechanische güte",
    "vas": "vas|equivalent (?:air )?volume|äquivalentvolumen",
    "sd": "sd|(?:effective )?(?:cone|piston|diaphragm|radiating) area|(?:effektive )?membranfläche",
    "re": "re|revc|dcr|d\\.?c\\.? resistance|voice coil resistance|gleichstromwiderstand",
    "le": "le|levc|(?:voice coil )?inductance|schwingspuleninduktivität",
    "mms": "mms|moving mass|bewegte masse",
    "cms": "cms|(?:suspension )?compliance|nachgiebigkeit",
    "rms": "rms|mechanical (?:resistance|loss(?:es)?)|mechanischer widerstand",
    "bl": "b ?[·*x×]? ?l|force factor|kraftfaktor|antriebsfaktor",
    "xmax": "x[- ]?max|linear (?:excursion|travel)|lineare auslenkung",
    "power": (
        "(?:rms |continuous |rated |nominal )?power(?: handling| rating)?(?: rms)?|rms power"
        "|(?:nenn)?belastbarkeit|nennleistung"
    ),
    "nominal_impedance": "(?:nominal |rated )?impedance|znom|nennimpedanz|impedanz",
    "sensitivity": "sensitivity|spl|kennschalldruck|wirkungsgradpegel",
    "coils": "voice coils|coils|schwingspulen",
    "outer_diameter": (
        "(?:outer|outside|overall|frame|flange) (?:frame )?diameter|außendurchmesser"
    ),
    "cutout_diameter": (
        "(?:baffle |mounting |panel )?cut-?out(?: diameter)?|mounting hole(?: diameter)?"
        "|einbau(?:öffnung|durchmesser)"
    ),
    "bolt_circle": "bolt circle(?: diameter)?|screw circle|pcd|lochkreis(?:durchmesser)?",
    "screws": "screws|screw holes|mounting holes|befestigungslöcher",
    "depth": "(?:mounting |overall |total |installation )?depth|einbautiefe",
    "magnet_diameter": "(?:magnet|motor) (?:outer )?diameter|magnetdurchmesser",
    "magnet_height": "(?:magnet|motor) (?:height|depth)|magnethöhe",
    "displacement": "(?:driver |speaker |basket |volume )?displacement|verdrängung",
}
_AMPLIFIER: Mapping[str, str] = {
    "channels": "(?:number of )?channels|kanäle",
    "lowest_load": (
        "(?:minimum|lowest|min\\.?) (?:load|impedance|speaker impedance)(?: stereo)?"
        "|mindestimpedanz"
    ),
    "lowest_load_bridged": (
        "(?:minimum|lowest|min\\.?) (?:load|impedance|speaker impedance),? (?:bridged|mono)"
        "|(?:bridged|mono) (?:minimum|lowest) (?:load|impedance)|mindestimpedanz,? gebrückt"
    ),
    "efficiency": "efficiency|wirkungsgrad",
    "fuse_rating": "fuse(?: rating| size|s)?|sicherung",
    "quiescent_current": "(?:idle|quiescent|no[- ]load) current(?: draw)?|ruhestrom",
    "minimum_voltage": (
        "(?:minimum|lowest) (?:supply|operating) voltage|(?:supply|operating) voltage"
        "|betriebsspannung"
    ),
    "highest_voltage": "(?:maximum|highest) (?:supply|operating) voltage",
    "turn_on_current": "(?:turn-?on|remote) current|einschaltstrom",
}
_PROCESSOR: Mapping[str, str] = {
    "inputs": "(?:number of )?(?:input channels|inputs)|eingänge",
    "outputs": "(?:number of )?(?:output channels|outputs)|ausgänge",
    "sample_rate": "sampl(?:e|ing) rate|abtastrate",
    "current": "(?:supply current|current (?:draw|consumption))|stromaufnahme",
    "turn_on_limit": "(?:turn-?on|remote) output(?: current)?",
    "highest_input": "(?:maximum|max\\.?|highest) input(?: voltage| level| signal)?",
    "minimum_voltage": _AMPLIFIER["minimum_voltage"],
    "highest_voltage": _AMPLIFIER["highest_voltage"],
    "fuse_rating": _AMPLIFIER["fuse_rating"],
}
_FUSE: Mapping[str, str] = {
    "rating": "(?:rated|nominal) current|rating|nennstrom",
    "voltage": "(?:rated |nominal )?voltage|nennspannung",
    "breaking_capacity": "(?:breaking|interrupting) (?:capacity|rating)|ausschaltvermögen",
}
_CONDUCTOR: Mapping[str, str] = {
    "size": "(?:conductor )?(?:cross[- ]section|size)|querschnitt",
    "insulation_temperature": "(?:insulation |operating )?temperature(?: class| rating)?",
    "ampacity": "(?:rated |maximum )?current|ampacity|strombelastbarkeit",
    "outer_diameter": "(?:outer|outside|overall) diameter|außendurchmesser",
    "cores": "cores|conductors|adern",
    "capacitance": "capacitance|kapazität",
}
_MATERIAL: Mapping[str, str] = {
    "thickness": "thickness|dicke|stärke",
    "sheet_length": "(?:sheet )?length|länge",
    "sheet_width": "(?:sheet )?width|breite",
    "density": "density|(?:roh)?dichte",
    "stiffness": "(?:young'?s|elastic) modulus|modulus of elasticity|e-?modul",
    "strength": "(?:bending|flexural) strength|modulus of rupture|biegefestigkeit",
    "area_mass": "(?:mass per area|area weight|surface weight)|flächengewicht",
}
_COVER: Mapping[str, str] = {
    "thickness": _MATERIAL["thickness"],
    "area_mass": _MATERIAL["area_mass"],
    "roll_width": "(?:roll |usable |fabric )?width|(?:rollen|waren)?breite",
}
_SUPPLY: Mapping[str, str] = {
    "spread": "(?:spread|coverage|application rate)|auftragsmenge|verbrauch",
    "barrel": "barrel(?: length)?|hülsenlänge",
    "hole": "(?:pilot |drill )?hole(?: diameter)?|bohrloch|bohrung",
}
_WORDS: Mapping[str, Mapping[str, str]] = {
    Part.Kind.DRIVER: _DRIVER,
    Part.Kind.AMPLIFIER: _AMPLIFIER,
    Part.Kind.PROCESSOR: _PROCESSOR,
    Part.Kind.FUSE: _FUSE,
    Part.Kind.CONDUCTOR: _CONDUCTOR,
    Part.Kind.SHEET_MATERIAL: _MATERIAL,
    Part.Kind.DAMPING: _MATERIAL,
    Part.Kind.COVER: _COVER,
    Part.Kind.SUPPLY: _SUPPLY,
}


def patterns(kind: str) -> dict[str, re.Pattern[str]]:
    """Return what names each figure of a kind of part on its sheet."""
    words = {**_EVERY, **_WORDS.get(kind, {})}
    return {
        name: re.compile(rf"(?<![^\W_])(?:{these})(?![^\W_])", re.IGNORECASE)
        for name, these in words.items()
    }
