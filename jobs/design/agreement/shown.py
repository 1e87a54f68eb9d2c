"""What a customer reads of a price: frozen as plain data, so that nothing is worked out again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs import money
from jobs.design.agreement.lines import GROUPS, Group, Line, Unit, amount_said
from jobs.design.agreement.price import JobPrice
from jobs.models import Job, WorkKind

ZERO = Decimal(0)
# Told in one line each: nobody orders a car by its terminals.
TOLD_TOGETHER = (Group.WOOD, Group.CABLE, Group.COVERING)


# Answers of the brief in words, technical ones: who listens to what stays with the person.
ASKED: Mapping[str, Promise] = {
    "space_to_keep": _("Space to keep"),
    "must_stay_factory": _("Must stay as it is"),
}


HEADINGS: tuple[tuple[Promise, tuple[Group, ...]], ...] = (
    (GROUPS[Group.EQUIPMENT], (Group.EQUIPMENT,)),
    (_("Material and further items"), (*TOLD_TOGETHER, Group.BY_HAND)),
    (GROUPS[Group.WORK], (Group.WORK,)),
)


@dataclass(frozen=True, kw_only=True)
class ShownLine:
    """One line as the customer reads it."""

    key: str
    group: str
    # Empty where the group or the kind of work is its name, said in the reader's language.
    name: str
    unit: str
    quantity: Decimal | None
    net: Decimal
    places: tuple[str, ...] = ()

    @property
    def label(self) -> str:
        """What it is."""
        if self.group == Group.WORK:
            return str(WorkKind(self.key.removeprefix("work ")).label)
        return self.name or str(GROUPS[Group(self.group)])

    @property
    def amount_said(self) -> str:
        """How much of it."""
        return "" if self.quantity is None else amount_said(self.quantity, Unit(self.unit))


@dataclass(frozen=True, kw_only=True)
class ShownTax:
    """The tax of one rate."""

    percent: Decimal
    base: Decimal
    tax: Decimal


@dataclass(frozen=True, kw_only=True)
class Shown:
    """A whole spec and price."""

    title: str
    currency: str
    on: date
    lines: tuple[ShownLine, ...]
    net: Decimal
    discount_percent: Decimal
    discount: Decimal
    taxes: tuple[ShownTax, ...]
    total: Decimal
    deposit_percent: Decimal
    deposit: Decimal
    # What the brief says in words and no check can hold the plan against: (field, answer).
    questions: tuple[tuple[str, str], ...] = ()

    @property
    def asked(self) -> list[tuple[str, str, str]]:
        """(field, what was asked for, the answer) of each, to be ticked with the yes."""
        return [(name, str(ASKED[name]), text) for name, text in self.questions]

    @property
    def groups(self) -> list[tuple[str, list[ShownLine]]]:
        """The lines under their headings: what is fitted, what it is built of, the work."""
        return [
            (str(title), lines)
            for title, groups in HEADINGS
            if (lines := [line for line in self.lines if line.group in groups])
        ]

    @property
    def plain(self) -> dict[str, Any]:
        """It as plain data."""
        return {name: _plain(part) for name, part in asdict(self).items()}

    @classmethod
    def of(cls, price: JobPrice, job: Job) -> Shown:
        """Freeze a price that lacks nothing."""
        answers = {name: str(getattr(job, name)).strip() for name in ASKED}
        return cls(
            title=job.title,
            questions=tuple((name, text) for name, text in answers.items() if text),
            currency=price.currency,
            on=price.on,
            lines=tuple(_lines(price.lines)),
            net=price.net,
            discount_percent=price.discount_percent,
            discount=price.discount,
            taxes=tuple(
                ShownTax(percent=tax.percent, base=tax.base, tax=tax.tax)
                for tax in price.taxes
                if tax.percent is not None and tax.tax is not None
            ),
            total=price.total,
            deposit_percent=price.deposit_percent,
            deposit=price.deposit,
        )

    @classmethod
    def read(cls, plain: Mapping[str, Any]) -> Shown:
        """Read what was frozen."""
        amounts = ("net", "discount_percent", "discount", "total", "deposit_percent", "deposit")
        return cls(
            title=plain["title"],
            currency=plain["currency"],
            on=date.fromisoformat(plain["on"]),
            lines=tuple(_line(line) for line in plain["lines"]),
            taxes=tuple(
                ShownTax(**{name: Decimal(value) for name, value in tax.items()})
                for tax in plain["taxes"]
            ),
            questions=tuple((name, text) for name, text in plain.get("questions", ())),
            **{name: Decimal(plain[name]) for name in amounts},
        )


def _line(plain: Mapping[str, Any]) -> ShownLine:
    quantity = plain["quantity"]
    read = {"quantity": quantity and Decimal(quantity), "net": Decimal(plain["net"])}
    return ShownLine(**{**plain, **read, "places": tuple(plain["places"])})


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _plain(part) for name, part in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(part) for part in value]
    if isinstance(value, date):
        return value.isoformat()
    return str(value) if isinstance(value, Decimal) else value


def _lines(lines: Iterable[Line]) -> Iterator[ShownLine]:
    every = list(lines)
    for group in Group:
        of_it = [line for line in every if line.group == group]
        if group in TOLD_TOGETHER and of_it:
            net = sum((line.net or ZERO for line in of_it), ZERO)
            yield ShownLine(
                key=f"group {group}", group=group, name="", unit=Unit.PIECE, quantity=None, net=net
            )
        elif group not in TOLD_TOGETHER:
            yield from (_shown(line) for line in of_it)


def _shown(line: Line) -> ShownLine:
    work = line.group == Group.WORK
    return ShownLine(
        key=line.key,
        group=line.group,
        name="" if work else line.name,
        unit=line.unit,
        quantity=line.quantity,
        net=line.net or ZERO,
        places=line.details if line.group == Group.EQUIPMENT else (),
    )


@dataclass(frozen=True, kw_only=True)
class Changed:
    """A line that an addition brings, takes out or alters, without tax; or discount, or tax."""

    label: str
    before: Decimal
    after: Decimal

    @property
    def more(self) -> Decimal:
        """What it adds, or takes off."""
        return self.after - self.before


def changes(before: Shown, after: Shown) -> list[Changed]:
    """Compare an addition with what was agreed: its lines, then another discount, other taxes."""
    then = {line.key: line for line in before.lines}
    now = {line.key: line for line in after.lines}
    lines = [
        Changed(
            label=(now.get(key) or then[key]).label,
            before=then[key].net if key in then else ZERO,
            after=now[key].net if key in now else ZERO,
        )
        for key in {**then, **now}
        if key not in then
        or key not in now
        or (then[key].net, then[key].quantity) != (now[key].net, now[key].quantity)
    ]
    return [*lines, *_terms_changed(before, after)]


def _terms_changed(before: Shown, after: Shown) -> Iterator[Changed]:
    if before.discount_percent != after.discount_percent:
        label = _percents(gettext("discount"), [before.discount_percent], [after.discount_percent])
        yield Changed(label=label, before=-before.discount, after=-after.discount)
    old, new = ([tax.percent for tax in shown.taxes] for shown in (before, after))
    if set(new) - set(old):
        then, now = (sum((tax.tax for tax in shown.taxes), ZERO) for shown in (before, after))
        yield Changed(label=_percents(gettext("tax"), old, new), before=then, after=now)


def _percents(what: str, old: Iterable[Decimal], new: Iterable[Decimal]) -> str:
    was, is_now = (", ".join(money.show_percent(each) for each in every) for every in (old, new))
    words = {"what": what, "new": is_now, "old": was}
    return gettext("%(what)s, %(new)s instead of %(old)s") % words


def more_said(amount: Decimal, currency: str) -> str:
    """Write what something adds with its sign."""
    sign = "+" if amount > 0 else "−" if amount < 0 else ""
    return f"{sign}{money.show(abs(amount), currency)}"
