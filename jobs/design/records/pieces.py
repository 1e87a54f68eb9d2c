"""Several of one part taken apart into pieces: each has its own serial number and its own place."""

from __future__ import annotations

from collections import defaultdict

from jobs.design.records.records import JobRecords
from jobs.models import EquipmentItem, PanelContent


def take_apart(content: PanelContent) -> list[PanelContent]:
    """Leave this row one piece, and give each of the others a row; all lie where they lay."""
    alike = [
        PanelContent(
            job_id=content.job_id,
            panel_id=content.panel_id,
            elsewhere=content.elsewhere,
            equipment_id=content.equipment_id,
            factory_part_id=content.factory_part_id,
            box_id=content.box_id,
            description=content.description,
            fixing=content.fixing,
            private=content.private,
        )
        for _ in range(content.pieces - 1)
    ]
    if alike:
        content.pieces = 1
        content.version += 1
        content.save()
    for piece in alike:
        piece.save()
    return alike


def pieces_of(item: EquipmentItem) -> list[PanelContent]:
    """Give each piece of a part a row of its own; where it goes somebody says when it is there.

    What is one piece on the list has its number and its place there.
    """
    if item.quantity == 1:
        return []
    rows = list(PanelContent.objects.filter(equipment=item))
    new = [piece for row in rows for piece in take_apart(row)]
    for _ in range(item.quantity - len(rows) - len(new)):
        new.append(PanelContent.objects.create(job_id=item.job_id, equipment=item))
    return new


def with_numbers(records: JobRecords) -> list[tuple[EquipmentItem, str]]:
    """Return what is fitted with its serial numbers: of several pieces, one for each known."""
    of_pieces: dict[int | None, list[str]] = defaultdict(list)
    for row in records.contents:
        if row.serial:
            of_pieces[row.equipment_id].append(row.serial)
    return [
        (item, item.serial or ", ".join(of_pieces[item.pk] if item.quantity > 1 else ()))
        for item in records.equipment
        if not item.is_used_up
    ]
