"""What the drawing surface says: handed to its script, which knows no words of its own."""

from __future__ import annotations

import json
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy, pgettext_lazy

from jobs import units

WORDS: dict[str, Promise] = {
    "corner": gettext_lazy("corner"),
    "block": gettext_lazy("block"),
    "opening": gettext_lazy("opening"),
    "place": gettext_lazy("place"),
    "size": gettext_lazy("size"),
    "across": pgettext_lazy("shape", "across"),
    "up": pgettext_lazy("shape", "up"),
    "forget": gettext_lazy("forget"),
    "crosses": gettext_lazy(
        "Two edges cross: nothing is worked out from such an outline. The corners stay as they are."
    ),
    "unread": gettext_lazy(
        "A figure in the table cannot be read; its corner is left out of the drawing."
    ),
    "unreadable": gettext_lazy("This figure cannot be read."),
    "toolarge": gettext_lazy("This is larger than anything in a car."),
    "nolength": gettext_lazy("A length is more than nothing."),
    "twins": gettext_lazy("Two corners lie in one place: move one of them, or take it out."),
    "moulded": gettext_lazy(
        "A moulded shape is measured, not drawn: its litres stand under Shape."
    ),
    "empty": gettext_lazy("Nothing to draw yet: type its measures, or begin with a rectangle."),
    "above": gettext_lazy("This one is drawn from above, under Shape."),
    "halfround": gettext_lazy("An arc is half a circle at most."),
    "nomeeting": gettext_lazy("These two lengths do not meet: measure one of them again."),
}
# Only a list is entered by stations or drawn over a photo.
OF_A_LIST: dict[str, Promise] = {
    "stations": gettext_lazy("Two stations at least, each with both figures."),
    "noscale": gettext_lazy(
        "The photo has no scale yet: nothing can be read off it until two taps or four set it."
    ),
    "nophoto": gettext_lazy("There is no photo that can be shown."),
    "needlength": gettext_lazy("Type the known length first."),
    "needsides": gettext_lazy("Type the width and the height of the rectangle first."),
    "taptwo": gettext_lazy("Tap end {n} of the known length: a tap, or arrow keys and Enter."),
    "tapfour": gettext_lazy(
        "Tap corner {n} of the rectangle, from the lower left one against the clock: a tap, or "
        "arrow keys and Enter."
    ),
    "badtaps": gettext_lazy("These taps lie in one place or on one line; the photo is as before."),
}


def surface(kind: str, **more: Any) -> dict[str, Any]:
    """Return what the part needs: a list that is drawn, or the bench of a box."""
    wanted = WORDS | OF_A_LIST if kind == "list" else WORDS
    words = {name: str(words) for name, words in wanted.items()}
    return {
        "surface": kind,
        "surface_unit": units.plain_unit("length"),
        "surface_words": json.dumps(words, ensure_ascii=False),
        **more,
    }
