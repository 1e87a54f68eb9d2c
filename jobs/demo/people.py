"""Invented people of an invented workshop."""

from __future__ import annotations

from django.contrib.auth.hashers import make_password

from jobs.models import Role, User, Workshop

PASSWORD = "spare-wheel-42"  # noqa: S105 - printed for everyone who tries the demo
PEOPLE = {
    "consultant": ("Ines", "Halloran", Role.CONSULTANT),
    "designer": ("Tomas", "Veldt", Role.DESIGNER),
    "installer": ("Mika", "Orsay", Role.INSTALLER),
    "manager": ("Ruth", "Ambler", Role.MANAGER),
    "stranger": ("Otto", "Nobody", None),
}


def load_people() -> dict[str, User]:
    """Make the workshop and everybody who signs in to it."""
    Workshop.objects.create(
        name="Ambler & Veldt, car audio",
        is_demo=True,
        address="7 Kiln Yard, Oxmere",
        phone="000 555 0142",
        first_check_weeks=6,
        warranty_months=24,
        warranty="Two years on our work from the day you sign below, and each maker's own on the "
        "parts, by the serial numbers on the list above. After six weeks we look at every joint "
        "and fuse once more; it costs nothing and takes half an hour.",
        web_address="http://undertrim.invalid",
    )
    # One printed password, worked out once: that takes most of a second for five.
    encoded = make_password(PASSWORD)
    return {
        name: User.objects.create(
            username=name,
            password=encoded,
            first_name=first,
            last_name=last,
            roles=[role] if role else [],
        )
        for name, (first, last, role) in PEOPLE.items()
    }
