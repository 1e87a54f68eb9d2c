"""One entry per sheet: what it prints, on whose word, with what attached and which options."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.conf import settings

from jobs import access
from jobs.design.job.whole import JobDesign
from jobs.models import IssuedSheet, PrintOrder, SheetKind, User
from jobs.sheets import (
    attached,
    build,
    cables,
    cut,
    labels,
    pack,
    panels,
    setup,
    templates,
)
from jobs.sheets.agreement import intake, options, spec
from jobs.sheets.attached import Attached
from jobs.sheets.customer import glovebox, handover, page
from jobs.sheets.desk import compare, workings

LANGUAGES = dict(settings.LANGUAGES)


@dataclass(frozen=True, kw_only=True)
class Options:
    """How a sheet is printed."""

    paper: str = "a4"
    language: str = "en"
    # Keys of the boxes that were ticked.
    boxes: tuple[str, ...] = ()
    # Numbers of the parts that were picked; every part where none was.
    parts: tuple[str, ...] = ()
    # Keys of the options of the job that were ticked.
    options: tuple[str, ...] = ()
    # What is new in the revision to be issued.
    reason: str = ""


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One of the documents a job can print."""

    kind: SheetKind
    template: str
    context: Callable[..., dict[str, Any]]
    # What goes with an issued sheet as data: nothing that the sheet itself does not print.
    attached: Attached
    # Who draws a draft, and opens it when it has been issued.
    may_open: Callable[[User], bool] = access.is_member
    may_issue: Callable[[User], bool] = access.may_spec
    # Why it may not be issued as the job stands, in words; None: whenever somebody wants it.
    refuses: Callable[[JobDesign], str] | None = None
    # What is kept beside it when it is issued, in the same transaction.
    kept_with: Callable[[JobDesign, IssuedSheet], None] = lambda design, issued: None
    # Names of the options that change what is on it, not only how it is laid out.
    takes: tuple[str, ...] = ()

    def gathered(self, design: JobDesign, options: Options) -> dict[str, Any]:
        """Return what the template is filled with."""
        return self.context(design, **{name: getattr(options, name) for name in self.takes})


SHEETS: dict[SheetKind, Sheet] = {
    sheet.kind: sheet
    for sheet in (
        Sheet(
            kind=SheetKind.BAY,
            template="sheets/pack.html",
            context=pack.for_the_bay,
            attached=attached.PACK,
        ),
        Sheet(
            kind=SheetKind.CUSTOMER,
            template="sheets/pack.html",
            context=pack.for_the_customer,
            attached=attached.PACK_OF_THE_CUSTOMER,
            kept_with=page.keep,
        ),
        Sheet(
            kind=SheetKind.BUILD,
            template="sheets/build.html",
            context=build.context,
            attached=attached.BUILD,
        ),
        Sheet(
            kind=SheetKind.PANELS,
            template="sheets/panels.html",
            context=panels.context,
            attached=attached.PANELS,
        ),
        Sheet(
            kind=SheetKind.HANDOVER,
            template="sheets/handover.html",
            context=handover.context,
            attached=attached.HANDOVER,
            kept_with=page.keep,
        ),
        Sheet(
            kind=SheetKind.GLOVEBOX,
            template="sheets/glovebox.html",
            context=glovebox.context,
            attached=attached.GLOVEBOX,
        ),
        Sheet(
            kind=SheetKind.SETUP,
            template="sheets/setup.html",
            context=setup.context,
            attached=attached.SETUP,
        ),
        Sheet(
            kind=SheetKind.WORKINGS,
            template="sheets/workings.html",
            context=workings.context,
            attached=attached.WORKINGS,
        ),
        Sheet(
            kind=SheetKind.COMPARE,
            template="sheets/compare.html",
            context=compare.context,
            attached=attached.COMPARE,
            takes=("boxes",),
        ),
        Sheet(
            kind=SheetKind.SPEC,
            template="sheets/spec.html",
            context=spec.context,
            attached=attached.SPEC,
            may_open=access.may_see_prices,
            may_issue=access.may_see_prices,
            refuses=spec.refuses,
            kept_with=spec.keep,
        ),
        Sheet(
            kind=SheetKind.OPTIONS,
            template="sheets/options.html",
            context=options.context,
            attached=attached.SPEC,
            may_open=access.may_see_prices,
            may_issue=access.may_see_prices,
            takes=("options",),
        ),
        Sheet(
            kind=SheetKind.INTAKE,
            template="sheets/intake.html",
            context=intake.context,
            attached=attached.INTAKE,
            may_issue=access.may_record,
            refuses=intake.refuses,
        ),
        Sheet(
            kind=SheetKind.CABLES,
            template="sheets/cables.html",
            context=cables.context,
            attached=attached.CABLES,
        ),
        Sheet(
            kind=SheetKind.LABELS,
            template="sheets/labels.html",
            context=labels.context,
            attached=attached.LABELS,
        ),
        Sheet(
            kind=SheetKind.CUT,
            template="sheets/cut.html",
            context=cut.context,
            attached=attached.WOOD,
        ),
        Sheet(
            kind=SheetKind.TEMPLATES,
            template="sheets/templates.html",
            context=templates.context,
            attached=attached.PIECES,
            # Templates are cut to the paper they are printed on.
            takes=("paper", "parts"),
        ),
    )
}

KINDS = tuple(SHEETS)


def may_open(user: User, issued: IssuedSheet) -> bool:
    """Whether somebody may open an issued sheet: whoever may print its draft.

    Its bytes stay what they were when it was issued; where they hold the whole job, it opens only
    to those who may know all of it.
    """
    if issued.holds_whole_job:
        return access.may_see_prices(user)
    return SHEETS[SheetKind(issued.kind)].may_open(user)


def may_follow(user: User, order: PrintOrder) -> bool:
    """Whether somebody may see how far a print is, and open what came of it."""
    return SHEETS[SheetKind(order.kind)].may_open(user)
