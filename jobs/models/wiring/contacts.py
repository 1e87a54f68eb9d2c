"""Numbers on the terminals of a car."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _


class Contact(models.TextChoices):
    """Terminal numbers of DIN 72552; they name a wire and never prove what is on it."""

    T15 = "15", _("15: plus, switched by the ignition")
    T30 = "30", _("30: battery plus")
    T30A = "30a", _("30a: plus of the second battery")
    T31 = "31", _("31: ground")
    T31B = "31b", _("31b: switched ground")
    T40 = "40", _("40: 48 V plus")
    T41 = "41", _("41: 48 V ground")
    T49 = "49", _("49: flasher")
    T50 = "50", _("50: starter")
    T56 = "56", _("56: headlights")
    T58 = "58", _("58: side lights")
    T58D = "58d", _("58d: instrument lights, dimmed")
    T61 = "61", _("61: charge lamp")
    T75 = "75", _("75: radio and accessories")
    T85 = "85", _("85: relay coil, minus")
    T86 = "86", _("86: relay coil, plus")
    T87 = "87", _("87: relay contact, closes")
    T87A = "87a", _("87a: relay contact, opens")
    B_PLUS = "B+", _("B+: alternator plus")
    D_PLUS = "D+", _("D+: alternator charge signal")
