"""What clashes in the calendar, in a sentence each."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

CLASHES: dict[str, Promise] = {
    "bay-twice": _("%(where)s: %(jobs)s stand here at the same time."),
    "car-twice": _("%(jobs)s stands in two bays at the same time: %(where)s."),
    "person-twice": _("%(where)s is at %(jobs)s at the same time."),
    "overload": _("%(where)s is planned for %(planned)s h; a day has %(limit)s h."),
    "overload-away": _("%(where)s is planned for %(planned)s h and is there for %(limit)s h."),
    "person-away": _("%(where)s is away and is planned for %(jobs)s."),
    "person-gone": _("%(where)s has left the workshop and is planned for %(jobs)s."),
    "not-here-yet": _("%(jobs)s is worked on in a bay, and the car comes on %(other)s."),
    "gone-already": _("%(jobs)s is worked on in a bay, and the car left on %(other)s."),
    "late": _("%(jobs)s is fetched after the day it is promised for, %(other)s."),
}
