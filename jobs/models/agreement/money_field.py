"""Decimal columns for money and shares, with their limits said once."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models


def money(label: Any) -> models.DecimalField[Decimal | None, Decimal | None]:
    """Return a field for an amount without tax that is None until somebody has said it.

    Nothing is free because nobody named its price: what costs nothing is entered as 0.
    """
    return models.DecimalField(
        label,
        max_digits=10,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(0)],
    )


def percent(label: Any, *, places: int = 2) -> models.DecimalField[Decimal | None, Decimal | None]:
    """Return a field for a share of a hundred, from 0 to 100."""
    return models.DecimalField(
        label,
        max_digits=3 + places,
        decimal_places=places,
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(100)],
    )
