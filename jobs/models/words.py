"""The words people look for, each beside the record it stands in."""

from __future__ import annotations

from django.db import models

LONGEST = 40


class Word(models.Model):
    """One word of one record, plain and cut to length."""

    class Shelf(models.IntegerChoices):
        """What a search lists apart from the rest."""

        JOB = 1
        RUN = 2
        ITEM = 3
        PART = 4
        PLACE = 5
        CUSTOMER = 6

    shelf = models.PositiveSmallIntegerField(choices=Shelf)
    # Bytes: every database orders them alike, so that one index finds the beginnings of words too.
    word = models.BinaryField(max_length=LONGEST)
    kind = models.CharField(max_length=16)
    key = models.BigIntegerField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["kind", "key", "word"], name="word_of_record_once")
        ]
        # A word written out stands before those that begin with it, its newest record first.
        indexes = [models.Index(fields=["shelf", "word", "-key"])]

    def __str__(self) -> str:
        return bytes(self.word).decode(errors="replace")
