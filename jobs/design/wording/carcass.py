"""What the wood refused, said in the reader's language and units."""

from __future__ import annotations

from collections.abc import Callable

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from acoustics.carcass.shape.errors import CarcassError
from jobs.design.wording.terms import term

Show = Callable[[float | str | None, str], str]

# Text of a calculator, with figures and names in braces -> what is said.
SAID: dict[str, Promise] = {
    "{measure} is {value:g} m; it must be greater than 0 m": _(
        "{measure} is {value}; it must be more than zero"
    ),
    "{measure} of '{of}' is {value:g} m; it must be greater than 0 m": _(
        "{of}, {measure}: {value}; it must be more than zero"
    ),
    "{measure} is {value:g} m; it must be less than the {other}, {limit:g} m": _(
        "{measure} is {value}; it must be less than {other}, {limit}"
    ),
    "a profile needs at least 3 corners; {corners} given": _("an outline needs 3 corners or more"),
    "the profile crosses or touches itself: {where}": _(
        "its outline crosses or touches itself; give its corners one after the other, all round"
    ),
    "the profile runs clockwise; give its corners counter-clockwise": _(
        "its corners run clockwise; give them the other way round"
    ),
    "the corner where edge '{name}' begins is straight: leave it out": _(
        "the corner where {name} begins is straight; leave it out"
    ),
    "panels {thinnest:g} to {thickest:g} m thick leave no inside at edge '{name}': {length:g} "
    "m long outside, {left:g} m inside; it must stay above 0 m": _(
        "panels {thinnest} to {thickest} thick leave no inside at {name}, which is {length} long "
        "outside; take thinner panels or make it longer"
    ),
    "panels {thinnest:g} to {thickest:g} m thick leave no inside: opposite panels cross": _(
        "panels {thinnest} to {thickest} thick leave no inside, opposite ones cross; take thinner "
        "panels or a larger box"
    ),
    "cheeks of {left:g} and {right:g} m leave no inside in a width of {width:g} m": _(
        "side panels of {left} and {right} leave no inside in a width of {width}; make it wider"
    ),
    "bottom and top of {bottom:g} and {top:g} m leave no inside in a height of {height:g} m": _(
        "bottom and top of {bottom} and {top} leave no inside in a height of {height}; make it "
        "higher"
    ),
    "{where}, walls meet before a height of {height:g} m": _(
        "the leaning walls meet below a height of {height}; let them lean less"
    ),
    "wood and parts inside take {taken:g} m³ of {gross:g} m³; nothing is left": _(
        "wood and parts inside take {taken}, the inside has {gross}; make the box larger"
    ),
    "panel '{name}', {thickness:g} m thick, is too short between its neighbours: one of its "
    "faces vanishes": _(
        "{name}, {thickness} thick, is too short between its neighbours; take thinner wood, or "
        "leave the short side out"
    ),
    "the slope is {slope:g} rad from upright; it must be less than {steepest:g} rad": _(
        "the lean from upright is {slope}; it must be less than {steepest}"
    ),
    "a slope of {slope:g} rad meets the front below the top; it must be less than "
    "{steepest:g} rad": _(
        "with a lean of {slope} the rear meets the front below the top; it must be less than "
        "{steepest}"
    ),
    "a rebate {rebate:g} m deep in cheeks {cheek:g} m thick: it must be shallower": _(
        "a rebate {rebate} deep goes through side panels {cheek} thick; make it shallower"
    ),
    "a rebate {rebate:g} m deep in panel '{name}', {thickness:g} m thick: it must be shallower": _(
        "a rebate {rebate} deep goes through {name}, {thickness} thick; make it shallower"
    ),
    "mitred cheeks close only if every corner of the profile is mitred too": _(
        "mitred side panels close only where every corner is mitred too"
    ),
    "walls that all lean meet in a mitre or a butt joint; a rebate needs square walls": _(
        "walls that all lean meet in a mitre or a butt joint; a rebate needs square walls"
    ),
    "shelves, uprights, plates and struts are entered for a box drawn across its width; where "
    "all walls lean, level braces are counted": _(
        "where all walls lean, only level braces can be entered, by their number"
    ),
    "brace '{name}' does not lie inside the box": _("{name} does not lie inside the box"),
    "brace '{name}' reaches from {low:g} m to {high:g} m from the left; the inside runs from "
    "{start:g} to {end:g} m": _(
        "{name} reaches from {low} to {high} from the left; the inside runs from {start} to {end}"
    ),
    "brace '{name}' reaches from {low:g} m to {high:g} m up from the bottom; the inside runs "
    "from {start:g} to {end:g} m": _(
        "{name} reaches from {low} to {high} up from the bottom; the inside runs from {start} to "
        "{end}"
    ),
    "the window of brace '{name}' leaves a rim of {rim:g} m; wanted: {wanted:g} m": _(
        "the window of {name} leaves a rim of {rim}; {wanted} is wanted: cut less out of it"
    ),
    "a window of brace '{name}' reaches a wall or another window": _(
        "the window of {name} reaches a wall; cut less out of it"
    ),
    "a {what} is put on '{face}'; faces are {faces}": _(
        "the box has no side {face}; it has {faces}"
    ),
    "a thickness is given for '{name}'; sides are {sides}": _(
        "a thickness is given for {name}, but the sides are {sides}"
    ),
    "the motor of '{name}', {motor:g} m across, does not pass through its cut-out of {hole:g} m": _(
        "the motor of {name}, {motor} across, does not pass through its cut-out of {hole}; "
        "correct the part"
    ),
    "the flange of '{name}', {flange:g} m across, does not cover its cut-out of {hole:g} m": _(
        "the flange of {name}, {flange} across, does not cover its cut-out of {hole}; correct the "
        "part"
    ),
    "a gap of {gap:g} m leaves no room in the cavity": _(
        "a gap of {gap} leaves no room in the cavity"
    ),
    "the gap is {gap:g} m; it must be 0 m or more": _("the gap is {gap}; it must be zero or more"),
    "the outline of obstacle '{name}' encloses nothing or crosses itself": _(
        "the outline of “{name}” encloses nothing or crosses itself"
    ),
    "the cavity has no outline or no width": _("the cavity has no outline or no width"),
    "the driver's outer diameter, cut-out, depth and magnet diameter are missing": _(
        "outer diameter, cut-out, depth or magnet diameter of the driver is missing"
    ),
    "the port's diameter or the tuning wanted is missing": _(
        "the port's diameter or the tuning wanted is missing"
    ),
    "{count} {things} are too many; at most {most} are worked out": _(
        "{count} {things} are too many; at most {most} are worked out"
    ),
    "{drivers} drivers in a cheek; one is possible": _("only one driver goes into a side panel"),
    "the screw circle is {circle:g} m across; for its screws to have wood it must be between "
    "{low:g} and {high:g} m": _(
        "the screw circle is {circle} across; for its screws to have wood it must be {low} to "
        "{high}"
    ),
    "an opening with a reveal of {reveal:g} m reaches the rim of the trim panel or another "
    "opening": _(
        "an opening with a reveal of {reveal} reaches the rim of the trim panel or another opening"
    ),
}
# What a calculator calls a measure.
MEASURES: dict[str, Promise] = {
    "width": _("width"),
    "height": _("height"),
    "depth": _("depth"),
    "diameter": _("diameter"),
    "radius": _("radius"),
    "thickness": _("thickness"),
    "breadth": _("breadth"),
    "depth at the bottom": _("depth at the bottom"),
    "width at the bottom": _("width at the bottom"),
    "depth at the top": _("depth at the top"),
    "width at the top": _("width at the top"),
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
    "screws": _("screws"),
    "layers": _("layers"),
    "parts": _("parts"),
    "inner braces": _("inner braces"),
}
# A figure is in metres, if its name does not say otherwise.
UNITS = {"slope": "rad", "steepest": "rad", "taken": "m³", "gross": "m³"}


def wood_says(error: CarcassError, show: Show) -> str | None:
    """Say a refusal of the wood in the reader's words; None when there are none for it."""
    words = SAID.get(error.text)
    if words is None:
        return None
    return str(words).format(**{key: _said(key, v, show) for key, v in error.given.items()})


def _said(key: str, value: object, show: Show) -> str:
    if isinstance(value, float):
        return show(value, UNITS.get(key, "m"))
    if isinstance(value, tuple):
        return ", ".join(term(str(one)) for one in value)
    text = str(value)
    return str(MEASURES[text]) if text in MEASURES else term(text)
