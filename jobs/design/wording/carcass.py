"""What the wood refused, said in the reader's language and units."""

from __future__ import annotations

import re
from collections.abc import Callable

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from jobs.design.wording.terms import term

Show = Callable[[float | str | None, str], str]

# What stands in braces, by its first letter: a figure in one of these units, an `n` for a name that
# is said in words, or a `c` for what is left out or as it is.
UNITS = {"l": "m", "a": "rad", "v": "m³"}
# Text of the calculator -> what is said.
SAID: dict[str, Promise] = {
    "{n} is {l} m; it must be greater than 0 m": _("{n} is {l}; it must be more than zero"),
    "{n} is {l} m; it must be less than {n2}, {l2} m": _(
        "{n} is {l}; it must be less than {n2}, {l2}"
    ),
    "a profile needs at least 3 corners; {c} given": _("an outline needs 3 corners or more"),
    "the profile crosses or touches itself: {c}": _(
        "its outline crosses or touches itself; give its corners one after the other, all round"
    ),
    "the profile runs clockwise; give its corners counter-clockwise": _(
        "its corners run clockwise; give them the other way round"
    ),
    "the corner where edge '{n}' begins is straight: leave it out": _(
        "the corner where {n} begins is straight; leave it out"
    ),
    "panels {l} to {l2} m thick leave no inside at edge '{n}': {l3} m long outside, {l4} m inside;"
    " it must stay above 0 m": _(
        "panels {l} to {l2} thick leave no inside at {n}, which is {l3} long outside; take thinner "
        "panels or make it longer"
    ),
    "panels {l} to {l2} m thick leave no inside: opposite panels cross": _(
        "panels {l} to {l2} thick leave no inside, opposite ones cross; take thinner panels or a "
        "larger box"
    ),
    "cheeks of {l} and {l2} m leave no inside in a width of {l3} m": _(
        "side panels of {l} and {l2} leave no inside in a width of {l3}; make it wider"
    ),
    "bottom and top of {l} and {l2} m leave no inside in a height of {l3} m": _(
        "bottom and top of {l} and {l2} leave no inside in a height of {l3}; make it higher"
    ),
    "{c}, walls meet before a height of {l} m": _(
        "the leaning walls meet below a height of {l}; let them lean less"
    ),
    "wood and parts inside take {v} m³ of {v2} m³; nothing is left": _(
        "wood and parts inside take {v}, the inside has {v2}; make the box larger"
    ),
    "panel '{n}', {l} m thick, is too short between its neighbours: one of its faces vanishes": _(
        "{n}, {l} thick, is too short between its neighbours; take thinner wood, or leave the "
        "short side out"
    ),
    "the slope is {a} rad from upright; it must be less than {a2} rad": _(
        "the lean from upright is {a}; it must be less than {a2}"
    ),
    "a slope of {a} rad meets the front below the top; it must be less than {a2} rad": _(
        "with a lean of {a} the rear meets the front below the top; it must be less than {a2}"
    ),
    "a rebate {l} m deep in cheeks {l2} m thick: it must be shallower": _(
        "a rebate {l} deep goes through side panels {l2} thick; make it shallower"
    ),
    "a rebate {l} m deep in panel '{n}', {l2} m thick: it must be shallower": _(
        "a rebate {l} deep goes through {n}, {l2} thick; make it shallower"
    ),
    "mitred cheeks close only if every corner of the profile is mitred too": _(
        "mitred side panels close only where every corner is mitred too"
    ),
    "walls that all lean meet in a mitre or a butt joint; a rebate needs square walls": _(
        "walls that all lean meet in a mitre or a butt joint; a rebate needs square walls"
    ),
    "shelves, uprights, plates and struts are entered for a box drawn across its width; where all"
    " walls lean, level braces are counted": _(
        "where all walls lean, only level braces can be entered, by their number"
    ),
    "brace '{n}' does not lie inside the box": _("{n} does not lie inside the box"),
    "brace '{n}' reaches from {l} m to {l2} m from the left;"
    " the inside runs from {l3} to {l4} m": _(
        "{n} reaches from {l} to {l2} from the left; the inside runs from {l3} to {l4}"
    ),
    "brace '{n}' reaches from {l} m to {l2} m up from the bottom;"
    " the inside runs from {l3} to {l4} m": _(
        "{n} reaches from {l} to {l2} up from the bottom; the inside runs from {l3} to {l4}"
    ),
    "the window of brace '{n}' leaves a rim of {l} m; wanted: {l2} m": _(
        "the window of {n} leaves a rim of {l}; {l2} is wanted: cut less out of it"
    ),
    "a window of brace '{n}' reaches a wall or another window": _(
        "the window of {n} reaches a wall; cut less out of it"
    ),
    "a {c} is put on '{n}'; faces are {n2}": _("the box has no side {n}; it has {n2}"),
    "a thickness is given for '{n}'; sides are {n2}": _(
        "a thickness is given for {n}, but the sides are {n2}"
    ),
    "the motor of '{n}', {l} m across, does not pass through its cut-out of {l2} m": _(
        "the motor of {n}, {l} across, does not pass through its cut-out of {l2}; correct the part"
    ),
    "the flange of '{n}', {l} m across, does not cover its cut-out of {l2} m": _(
        "the flange of {n}, {l} across, does not cover its cut-out of {l2}; correct the part"
    ),
    "a gap of {l} m leaves no room in the cavity": _("a gap of {l} leaves no room in the cavity"),
    "the gap is {l} m; it must be 0 m or more": _("the gap is {l}; it must be zero or more"),
    "the outline of obstacle '{n}' encloses nothing or crosses itself": _(
        "the outline of “{n}” encloses nothing or crosses itself"
    ),
    "the cavity has no outline or no width": _("the cavity has no outline or no width"),
    "the driver's outer diameter, cut-out, depth and magnet diameter are missing": _(
        "outer diameter, cut-out, depth or magnet diameter of the driver is missing"
    ),
    "the port's diameter or the tuning wanted is missing": _(
        "the port's diameter or the tuning wanted is missing"
    ),
    "{c} drivers in a cheek; one is possible": _("only one driver goes into a side panel"),
    "the screw circle is {l} m across; for its screws to have wood it must be between {l2} and"
    " {l3} m": _(
        "the screw circle is {l} across; for its screws to have wood it must be {l2} to {l3}"
    ),
    "an opening with a reveal of {l} m reaches the rim of the trim panel or another opening": _(
        "an opening with a reveal of {l} reaches the rim of the trim panel or another opening"
    ),
}
# What a calculator calls a measure; "… of panel 'front'" keeps the panel.
MEASURES: dict[str, Promise] = {
    "width": _("width"),
    "height": _("height"),
    "depth": _("depth"),
    "diameter": _("diameter"),
    "radius": _("radius"),
    "thickness": _("thickness"),
    "breadth": _("breadth"),
    "bottom depth": _("depth at the bottom"),
    "top depth": _("depth at the top"),
    "knee depth": _("depth of the knee"),
    "knee height": _("height of the knee"),
    "step depth": _("depth of the step"),
    "step height": _("height of the step"),
    "toe depth": _("depth of the toe"),
    "toe height": _("height of the toe"),
    "cut depth": _("depth of the cut"),
    "cut height": _("height of the cut"),
    "width of the cavity": _("width of the cavity"),
    "width of the opening": _("width of the opening"),
    "height of the opening": _("height of the opening"),
    "net volume wanted": _("net volume wanted"),
    "reach of the flats around the arch": _("reach of the flats around the arch"),
}
OF = re.compile(
    r"(?P<measure>\w+) of (?:the )?(?:panel |brace |layer on )?'?(?P<name>.+?)'?( cheek)?"
)


def _pattern(text: str) -> re.Pattern[str]:
    """Make a text with figures and names in braces one that finds them."""
    parts = re.split(r"\{(\w+)\}", text)
    made = [
        re.escape(part) if i % 2 == 0 else rf"(?P<{part}>{r'.+' if part[0] in 'nc' else r'[^ ]+'})"
        for i, part in enumerate(parts)
    ]
    return re.compile("".join(made))


PATTERNS = {_pattern(text): words for text, words in SAID.items()}


def wood_says(text: str, show: Show) -> str | None:
    """Say a refusal of the wood in the reader's words; None when there are none for it."""
    for pattern, words in PATTERNS.items():
        if found := pattern.fullmatch(text):
            given = {
                name: _name(value) if name[0] == "n" else _figure(name, value, show)
                for name, value in found.groupdict().items()
            }
            return str(words).format(**given)
    return None


def _figure(name: str, value: str, show: Show) -> str:
    try:
        return show(float(value), UNITS[name[0]])
    except (KeyError, ValueError):
        return value


def _name(name: str) -> str:
    if name.removeprefix("the ") in MEASURES:
        return str(MEASURES[name.removeprefix("the ")])
    found = OF.fullmatch(name)
    if found and found["measure"] in MEASURES:
        return f"{term(found['name'])}, {MEASURES[found['measure']]}"
    return term(name)
