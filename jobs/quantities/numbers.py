"""The numbers people type: look-alike characters, decimal comma, thousands, fractions.

Nothing here knows a unit. Every refusal gives its reason in the reader's language.
"""

import re
import unicodedata
from fractions import Fraction

from django.utils.formats import get_format
from django.utils.translation import gettext as _

LONGEST_TEXT = 64
MOST_DIGITS = 20

_LOOKALIKES = str.maketrans(
    {
        **dict.fromkeys("“”„″ʺ", '"'),
        **dict.fromkeys("‘’‚′ʹ´`", "'"),
        **dict.fromkeys("−–‐‑", "-"),
        **dict.fromkeys("·⋅∙×", "*"),
        "º": "°",
    }
)
_SPACED_THOUSANDS = re.compile(r"(?<![0-9.,/])[0-9]{1,3}(?: [0-9]{3})+(?![0-9/])")
_EXPONENT = re.compile("[+-]?[0-9]+")
_WHOLE_PART = re.compile(r"[0-9]*|[0-9]{1,3}([.,])[0-9]{3}(?:\1[0-9]{3})*")


class UnreadableQuantity(ValueError):  # noqa: N818 - the name says what happened
    """Typed text cannot be taken; `code` is stable, the message is for the person who typed."""

    def __init__(self, message: str, code: str) -> None:
        super().__init__(message)
        self.message = message
        self.code = code


def quoted(text: str) -> str:
    """Return typed text as a message repeats it: in quotes, cut when long."""
    return _("“%(text)s”") % {"text": text if len(text) <= 30 else text[:29] + "…"}


def localized(digits: str) -> str:
    """Return plain digits with the reader's decimal mark; thousands are never grouped."""
    return digits.replace(".", str(get_format("DECIMAL_SEPARATOR")))


def plain(text: str) -> str:
    """Return text with look-alike characters, fractions and spaces in their plain form."""
    parts: list[str] = []
    for char in text.strip().translate(_LOOKALIKES):
        if unicodedata.category(char) == "Cf":
            continue  # zero-width marks that come along when pasting
        made_of = unicodedata.decomposition(char)
        # "6½" is 6 1/2, never 61/2, and "6¹" is not 61.
        after_digit = bool(parts) and parts[-1][-1:].isdigit()
        raised = made_of.startswith(("<super>", "<sub>")) and after_digit
        apart = raised or made_of.startswith("<fraction>")
        parts.append((" " if apart else "") + unicodedata.normalize("NFKC", char))
    return " ".join("".join(parts).replace("\u2044", "/").replace("''", '"').split())


def checked(text: str) -> str:
    """Return the text in plain form, refused early if no honest number looks like it."""
    if len(text) > LONGEST_TEXT:
        reason = _("%(text)s is too long.") % {"text": quoted(text)}
        raise UnreadableQuantity(reason, "too-long")
    tidy = _SPACED_THOUSANDS.sub(lambda match: match[0].replace(" ", ""), plain(text))
    if not tidy:
        raise UnreadableQuantity(_("Nothing was typed."), "empty")
    digits = len(re.findall("[0-9]", tidy))
    if not digits:
        reason = _("There is no number in %(text)s.") % {"text": quoted(text)}
        raise UnreadableQuantity(reason, "no-number")
    if digits > MOST_DIGITS:
        reason = _("%(text)s has more than %(most)d digits.")
        raise UnreadableQuantity(reason % {"text": quoted(text), "most": MOST_DIGITS}, "too-long")
    return tidy


def common_fraction(whole: str | None, top: str, bottom: str) -> Fraction:
    """Return the value of "6 1/2" given in its three parts."""
    if int(bottom) == 0:
        reason = _("%(part)s divides by zero.") % {"part": quoted(f"{top}/{bottom}")}
        raise UnreadableQuantity(reason, "number")
    return int(whole or 0) + Fraction(int(top), int(bottom))


def _no_number(text: str) -> str:
    return _("%(part)s is not a number.") % {"part": quoted(text)}


def decimal(text: str) -> Fraction:
    """Return the exact value of digits whose decimal mark may be a comma or a point.

    With both marks, or one of them repeated, the thousands are plain to see. A single mark
    before exactly three digits could be either: it is the decimal mark where the reader's
    language says so, and refused otherwise, for a silent factor of 1000 is the worst answer.
    """
    mantissa, e, exponent = text.lower().partition("e")
    if e and not _EXPONENT.fullmatch(exponent):
        raise UnreadableQuantity(_no_number(text), "number")
    if abs(int(exponent or 0)) > MOST_DIGITS:
        reason = _("%(part)s is far outside what can be meant here.") % {"part": quoted(text)}
        raise UnreadableQuantity(reason, "range")
    marks = re.findall("[.,]", mantissa)
    whole, mark, rest = mantissa, "", ""
    if len(marks) == 1 or len(set(marks)) == 2:
        whole, mark, rest = mantissa.rpartition(marks[-1])
    grouped = _WHOLE_PART.fullmatch(whole)
    is_number = grouped is not None and not (mark and grouped[1] == mark) and whole + rest
    if not is_number or not re.fullmatch("[0-9]*", rest):
        raise UnreadableQuantity(_no_number(text), "number")
    either = len(marks) == 1 and len(rest) == 3 and re.fullmatch("[1-9][0-9]{0,2}", whole)
    if either and mark != get_format("DECIMAL_SEPARATOR"):
        reason = _("%(part)s can be read as %(small)s or as %(large)s: type the one you mean.")
        small = localized(f"{whole}.{rest}".rstrip("0").rstrip("."))
        readings = {"part": quoted(text), "small": small, "large": whole + rest}
        raise UnreadableQuantity(reason % readings, "ambiguous")
    digits = re.sub("[.,]", "", whole)
    return Fraction(f"{digits or 0}.{rest or 0}") * Fraction(10) ** int(exponent or 0)
