"""Fields with a limit, said once: the form refuses what is beyond it, so no calculator meets it.

A figure has the limits of its kind (`jobs/quantities/kinds.py`) and here only those that are
narrower. What most is allowed is a matter of forms, not of tables: it may change without a
migration.
"""

from __future__ import annotations

from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

# Of a small column on PostgreSQL: https://www.postgresql.org/docs/15/datatype-numeric.html
LARGEST_SMALL = 32_767
AT_LEAST, AT_MOST = (
    _("This must be at least %(limit_value)s."),
    _("This must be at most %(limit_value)s."),
)


class _Bounded:
    """What the fields below share; limits given here stay out of the table's description."""

    def __init__(
        self, *args: Any, least: float | None = None, most: float | None = None, **kwargs: Any
    ) -> None:
        self._least, self.most = least, most
        super().__init__(*args, **kwargs)

    @property
    def least(self) -> float | None:
        """The lower limit, given here or kept by a validator of Django's."""
        if self._least is not None:
            return self._least
        limits = [v for v in self._validators if isinstance(v, MinValueValidator)]  # type: ignore[attr-defined]
        return limits[0].limit_value if limits else None

    @property
    def validators(self) -> list[Any]:
        """Django's, and the limits."""
        least = [MinValueValidator(self._least)] if self._least is not None else []
        most = [MaxValueValidator(self.most)] if self.most is not None else []
        return [*super().validators, *least, *most]  # type: ignore[misc]

    def deconstruct(self) -> Any:
        """Describe the column as the plain field it is."""
        name, _path, args, kwargs = super().deconstruct()  # type: ignore[misc]
        plain = next(base for base in type(self).__mro__ if base.__module__.startswith("django."))
        return name, f"django.db.models.{plain.__name__}", args, kwargs

    def formfield(self, **kwargs: Any) -> Any:
        """Let the form refuse what is out of bounds before it reaches the record."""
        limits = {"min_value": self.least, "max_value": self.most}
        bounds = {name: limit for name, limit in limits.items() if limit is not None}
        words = {"error_messages": {"min_value": AT_LEAST, "max_value": AT_MOST}}
        return super().formfield(**(words | bounds | kwargs))  # type: ignore[misc]


class _Count(_Bounded, models.PositiveSmallIntegerField[Any, Any]):
    pass


class _LargeCount(_Bounded, models.PositiveIntegerField[Any, Any]):
    pass


class _Figure(_Bounded, models.FloatField[Any, Any]):
    pass


class _Prose(models.TextField[Any, Any]):
    def __init__(self, *args: Any, most: int | None = None, **kwargs: Any) -> None:
        self.most = most
        super().__init__(*args, **kwargs)

    def deconstruct(self) -> Any:
        name, _path, args, kwargs = super().deconstruct()
        return name, "django.db.models.TextField", args, kwargs

    def formfield(self, **kwargs: Any) -> Any:
        return super().formfield(**({"max_length": self.most} | kwargs))


def count(
    label: Any, *, most: int, least: int = 0, default: int = 1
) -> models.PositiveSmallIntegerField[int, int]:
    """Return a field for how many there are of something."""
    return _Count(label, most=most, default=default, validators=_at_least(least))


def number(label: Any, *, most: int, least: int = 0) -> models.IntegerField[int | None, int | None]:
    """Return a field for a whole number that may be unknown, in a column that holds the most."""
    kind = _Count if most <= LARGEST_SMALL else _LargeCount
    return kind(label, most=most, null=True, blank=True, validators=_at_least(least))


def figure(
    label: Any, *, least: float | None = None, most: float | None = None, column: str | None = None
) -> models.FloatField[float | None, float | None]:
    """Return a field for a figure in SI that is None until somebody has read or measured it.

    Its limits are those of what there is, by common practice and with room: they catch a slip of
    the unit or of the decimal mark, and judge nothing.
    """
    return _Figure(label, least=least, most=most, null=True, blank=True, db_column=column)


def setting(
    label: Any, *, least: float, most: float, default: float = 0.0
) -> models.FloatField[float, float]:
    """Return a field for a figure in SI that always has a value, such as a level."""
    return _Figure(label, least=least, most=most, default=default)


def prose(label: Any, *, most: int = 4000, blank: bool = True) -> models.TextField[str, str]:
    """Return a field for a text of several lines."""
    return _Prose(label, most=most, blank=blank)


def _at_least(least: int) -> list[MinValueValidator]:
    return [MinValueValidator(least)] if least else []
