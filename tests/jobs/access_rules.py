"""The rules: who may open every address of the app, and who may send to it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from jobs import models
from jobs.models import Job
from tests.jobs.addressed import (
    a_choice,
    a_customer_page,
    a_decision,
    a_finding,
    a_message,
    a_person,
    a_photo,
    a_pictured_mark,
    a_print,
    a_processor_file,
    a_report,
    a_take,
    a_tax_rate,
    an_earlier_job,
    an_issued_sheet,
    any_of,
    first,
    given,
)

CONSULTANT, DESIGNER, INSTALLER, MANAGER = "consultant", "designer", "installer", "manager"
EVERY = {CONSULTANT, DESIGNER, INSTALLER, MANAGER}
DECIDES = EVERY - {INSTALLER}
PRICES = {CONSULTANT, MANAGER}
MANAGES = {MANAGER}


@dataclass(frozen=True, kw_only=True)
class Rule:
    """Which roles read an address and which send to it; none: there is no such method (405)."""

    get: set[str] = field(default_factory=set)
    post: set[str] = field(default_factory=set)
    # What stands in the address besides the code of a job.
    args: Callable[[Job], list[Any]] = lambda job: []
    of_a_job: bool = True
    sent: dict[str, str] = field(default_factory=dict)


# Lists whose rows are typed in a table, where several are copied or removed at once.
IN_TABLES = {
    *("item", "channel", "node", "run", "ground"),
    *("panel", "step", "content", "fixing"),
}


def rows(slug: str, model: Any, who: set[str]) -> dict[str, Rule]:
    """The addresses every kind of row has."""
    one = first(model)
    return {
        f"{slug}-add": Rule(get=who, post=who),
        f"{slug}-edit": Rule(get=who, post=who, args=one),
        f"{slug}-remove": Rule(post=who, args=one),
        f"{slug}-restore": Rule(post=who, args=one),
        **({f"{slug}-rows": Rule(post=who, sent={"act": "copy"})} if slug in IN_TABLES else {}),
    }


def alone(**more: Any) -> Rule:
    """An address that belongs to no job."""
    return Rule(of_a_job=False, **more)


_HOUSE = (models.Absence, models.Bay, models.PartList, models.Offcut, models.Part)
an_absence, a_bay, a_list, an_offcut, a_part = map(any_of, _HOUSE)
a_box = first(models.Box)
a_sweep = first(models.DriverSweep)


RULES: dict[str, Rule] = {
    **{name: alone(get=EVERY) for name in ("board", "search")},
    "part-cars": alone(get=MANAGES, post=MANAGES, args=a_part),
    "new-job": alone(get=DECIDES, post=DECIDES),
    **{name: alone(get=DECIDES) for name in ("customers", "known-cars")},
    **{f"{of}-list": alone(get=EVERY) for of in ("customer", "car")},
    **{name: alone(get=EVERY) for name in ("calendar", "parts", "parts-order")},
    "accounts": alone(get=PRICES),
    **{f"calendar-feed-{act}": alone(post=EVERY) for act in ("renew", "withdraw")},
    **{
        name: alone(get=MANAGES, post=MANAGES)
        for name in ("bays", "part-lists", "workshop", "rates", "job-take-in")
    },
    "job-make": alone(post=MANAGES),
    # One's own days; of anybody else's only the manager disposes.
    "absences": alone(get=EVERY, post=EVERY),
    **{f"absence-{act}": alone(post=MANAGES, args=an_absence) for act in ("remove", "restore")},
    "part-list": alone(get=MANAGES, args=a_list),
    **{f"part-list-{act}": alone(post=MANAGES, args=a_list) for act in ("step", "stop", "write")},
    **{f"bay-{act}": alone(post=MANAGES, args=a_bay) for act in ("remove", "restore")},
    "parts-act": alone(post=EVERY),
    "tax-add": alone(post=MANAGES),
    **{f"tax-{act}": alone(post=MANAGES, args=a_tax_rate) for act in ("remove", "restore")},
    **{name: alone(get=MANAGES) for name in ("style", "upkeep", "people", "today")},
    "person-add": alone(get=MANAGES, post=MANAGES),
    "person": alone(get=MANAGES, post=MANAGES, args=a_person),
    **{
        f"person-{act}": alone(post=MANAGES, args=a_person)
        for act in ("reset", "leave", "back", "factor-off")
    },
    "account": alone(get=EVERY),
    **{f"account-{of}": alone(get=EVERY, post=EVERY) for of in ("password", "factor")},
    "account-sessions-end": alone(post=EVERY),
    "catalogue": alone(get=EVERY),
    "offcuts": alone(get=EVERY, post=EVERY),
    **{f"offcut-{act}": alone(post=EVERY, args=an_offcut) for act in ("remove", "restore")},
    "part-add": alone(get=DECIDES, post=DECIDES, args=given("driver")),
    "part-figures": alone(get=EVERY),
    **{f"part-{act}": alone(post=DECIDES, args=given("driver")) for act in ("sheet", "check")},
    "part-edit": alone(get=DECIDES, post=DECIDES, args=a_part),
    **{f"part-{act}": alone(post=DECIDES, args=a_part) for act in ("remove", "restore")},
    "part-picture": alone(get=EVERY, post=DECIDES, args=a_part),
    "part-history": alone(get=EVERY, args=a_part),
    "workshop-history": alone(get=MANAGES),
    "person-history": alone(get=MANAGES, args=a_person),
    "job": Rule(get=EVERY),
    "job-file": Rule(get=MANAGES),
    "count": Rule(post=EVERY),
    **{name: Rule(get=EVERY, post=DECIDES) for name in ("brief", "customer", "car")},
    **{
        name: Rule(get=EVERY)
        for name in (
            *("equipment", "channels", "boxes", "dxf", "power", "supply", "schedule", "panels"),
            *("findings", "bay", "setup", "sheets", "history"),
        )
    },
    "price": Rule(get=PRICES, post=PRICES),
    **rows("price-line", models.PriceLine, PRICES),
    "agreement": Rule(get=PRICES),
    **{
        f"offer-{act}": Rule(post=PRICES, args=first(models.Offer))
        for act in ("withdraw", "signed", "photos")
    },
    **rows("payment", models.Payment, PRICES),
    "options": Rule(get=PRICES, post=PRICES),
    **{
        f"option-{act}": Rule(post=PRICES, args=first(models.DesignOption))
        for act in ("take", "choose")
    },
    **{
        name: rule
        for name, rule in rows("option", models.DesignOption, PRICES).items()
        if name != "option-add"
    },
    **{name: Rule(get=EVERY) for name in ("hours", "days")},
    **rows("booking", models.Booking, DECIDES),
    **rows("conversation", models.Conversation, EVERY),
    **rows("work-time", models.WorkTime, EVERY),
    **rows("car-template", models.CarTemplate, DECIDES),
    **rows("factory", models.FactoryPart, DECIDES),
    **rows("item", models.EquipmentItem, DECIDES),
    **rows("channel", models.Channel, DECIDES),
    **rows("box", models.Box, DECIDES),
    **rows("ring", models.Ring, DECIDES),
    **rows("trim-panel", models.TrimPanel, DECIDES),
    **rows("wood-step", models.WoodStep, DECIDES),
    **rows("box-as-built", models.BoxAsBuilt, EVERY),
    "box-as-built-preview": Rule(post=EVERY),
    "shop": Rule(get=EVERY),
    "channels-suggested": Rule(post=DECIDES),
    "shop-usual-box": Rule(post=DECIDES, args=first(models.Box)),
    "shop-usual-trim-panel": Rule(post=DECIDES, args=first(models.TrimPanel)),
    "shop-supplies": Rule(post=DECIDES),
    "shop-tick": Rule(post=EVERY, args=first(models.WoodStep)),
    **rows("node", models.PowerNode, DECIDES),
    **rows("run", models.Run, DECIDES),
    **rows("panel", models.Panel, DECIDES),
    **rows("step", models.PanelStep, DECIDES),
    # What was really found is written down by whoever found it.
    **rows("ground", models.GroundPoint, EVERY),
    **rows("join", models.LoomJoin, EVERY),
    "item-fitted": Rule(post=EVERY, args=first(models.EquipmentItem)),
    **rows("content", models.PanelContent, EVERY),
    **rows("measurement", models.Measurement, EVERY),
    **rows("fixing", models.Fixing, EVERY),
    **rows("layer", models.DampingLayer, EVERY),
    **rows("run-as-built", models.RunAsBuilt, EVERY),
    **rows("factory-as-built", models.FactoryAsBuilt, EVERY),
    **rows("item-as-built", models.ItemAsBuilt, EVERY),
    "run-as-built-preview": Rule(post=EVERY),
    "factory-as-built-preview": Rule(post=EVERY),
    "item-as-built-preview": Rule(post=EVERY),
    "measurement-plan": Rule(post=EVERY),
    "bay-cars": alone(get=EVERY),
    "bay-read": Rule(post=EVERY),
    "bay-caution": Rule(post=EVERY, args=first(models.Panel)),
    "bay-news": Rule(get=EVERY),
    "bay-acts": Rule(get=EVERY, post=EVERY),
    "bay-note": Rule(post=EVERY),
    "bay-photos": Rule(post=EVERY, args=first(models.Panel)),
    **{name: Rule(get=EVERY, args=a_photo) for name in ("photo", "photo-large")},
    "panel-close": Rule(get=EVERY, post=EVERY, args=first(models.Panel)),
    "panel-reopen": Rule(post=EVERY, args=first(models.Panel)),
    "gate": Rule(get=EVERY),
    "gate-sign": Rule(post=EVERY),
    "gate-answer": Rule(post=EVERY),
    "gate-report": Rule(get=EVERY, args=a_report),
    "messages": Rule(get=PRICES, post=PRICES, sent={}),
    "message-again": Rule(post=PRICES, args=a_message),
    "intake": Rule(get=EVERY, post=EVERY),
    **{f"intake-{act}": Rule(post=EVERY) for act in ("mark", "sign")},
    "aftercare": Rule(get=EVERY),
    **rows("visit", models.ServiceVisit, EVERY),
    "visit-photos": Rule(post=EVERY, args=first(models.ServiceVisit)),
    **rows("lot", models.CableLot, EVERY),
    "intake-mark-remove": Rule(post=EVERY, args=first(models.IntakeMark)),
    "intake-picture": Rule(get=EVERY, args=a_pictured_mark),
    "panels-usual": Rule(post=DECIDES),
    **{
        f"{what}-learnt": Rule(post=DECIDES, args=an_earlier_job)
        for what in ("panels", "route", "cavity")
    },
    "panels-taught": Rule(get=EVERY),
    "gate-release": Rule(post=MANAGES),
    "stage": Rule(post=DECIDES, sent={"to": "enquiry"}),
    "halt": Rule(get=EVERY, post=DECIDES),
    "customer-change": Rule(get=DECIDES, post=DECIDES),
    "take": Rule(get=DECIDES, post=DECIDES),
    "note-edit": Rule(get=EVERY, post=EVERY, args=first(models.BayNote)),
    "note-remove": Rule(post=EVERY, args=first(models.BayNote)),
    "note-restore": Rule(post=EVERY, args=first(models.BayNote)),
    "bay-looked": Rule(post=EVERY, args=first(models.Panel)),
    "panel-empty": Rule(post=EVERY, args=first(models.Panel)),
    "setup-distances": Rule(post=EVERY),
    "setup-microphone": Rule(get=EVERY, post=EVERY),
    "setup-take": Rule(get=EVERY, args=a_take),
    "setup-processor-file": Rule(get=EVERY, args=a_processor_file),
    **{f"setup-{name}": Rule(get=EVERY) for name in ("signals", "measured", "proposal", "as-set")},
    **rows("channel-setting", models.ChannelSetting, EVERY),
    **rows("channel-curve", models.ChannelCurve, EVERY),
    **rows("processor-file", models.ProcessorFile, EVERY),
    **rows("target-curve", models.TargetCurve, EVERY),
    "setup-signal": Rule(get=EVERY, args=given("pink-noise", "wav")),
    "rights": alone(get=EVERY),
    **rows("sweep", models.DriverSweep, EVERY),
    **rows("box-sweep", models.BoxSweep, EVERY),
    **rows("cabin-curve", models.CabinCurve, EVERY),
    **{
        f"{slug}-preview": Rule(post=DECIDES)
        for slug in ("box", "ring", "trim-panel", "node", "run", "box-study")
    },
    "sweep-preview": Rule(post=EVERY),
    "box-sweep-preview": Rule(post=EVERY),
    "sweep-use": Rule(post=DECIDES, args=a_sweep),
    "sweep-leave": Rule(post=DECIDES, args=a_sweep),
    "box-copy": Rule(post=DECIDES, args=a_box),
    "study": Rule(get=EVERY, args=a_box),
    "cabin": Rule(get=EVERY, args=a_box),
    "fit": Rule(get=EVERY, post=DECIDES, sent={"pick": "0"}),
    "fit-box": Rule(get=EVERY, post=DECIDES, sent={"pick": "0"}, args=a_box),
    "fit-undo": Rule(post=DECIDES, args=lambda job: [*a_box(job), 9]),
    "targets": Rule(get=EVERY, post=DECIDES, args=a_box),
    "targets-undo": Rule(post=DECIDES, args=lambda job: [*a_box(job), 9]),
    "choose": Rule(get=DECIDES, post=DECIDES),
    "choose-restore": Rule(post=DECIDES, args=a_choice),
    "run": Rule(get=EVERY, args=given("P01")),
    "photo-add": Rule(get=EVERY, post=EVERY, args=first(models.Panel)),
    "picture-edit": Rule(get=EVERY, post=EVERY, args=a_photo),
    "picture-remove": Rule(post=EVERY, args=a_photo),
    "picture-restore": Rule(post=EVERY, args=a_photo),
    "customer-data": Rule(get=MANAGES, post=MANAGES),
    "customer-file": Rule(get=MANAGES),
    "photo-show": Rule(post=DECIDES, args=a_photo),
    "panel-code-renew": Rule(post=DECIDES, args=first(models.Panel)),
    "panel-code-withdraw": Rule(post=DECIDES, args=first(models.Panel)),
    "cure": Rule(get=EVERY, args=given("car", "start-stop-unknown", "vehicle", "1")),
    "caution-known": Rule(post=DECIDES, args=a_finding("look")),
    "decide": Rule(get=DECIDES, post=DECIDES, args=a_finding("look")),
    "decide a stop": Rule(get=MANAGES, post=MANAGES, args=a_finding("stop")),
    "decision-withdraw": Rule(post=DECIDES, args=a_decision("look")),
    "decision-withdraw of a stop": Rule(post=MANAGES, args=a_decision("stop")),
    "decision-restore": Rule(post=DECIDES, args=a_decision("look")),
    "decision-restore of a stop": Rule(post=MANAGES, args=a_decision("stop")),
    "tick": Rule(post=EVERY, args=first(models.PanelStep)),
    "measure": Rule(post=EVERY, args=first(models.Measurement)),
    "sheet-draft": Rule(get=EVERY, args=given("labels")),
    "sheet-ask": Rule(get=DECIDES, args=given("labels")),
    "customer-link-withdraw": Rule(post=DECIDES, args=a_customer_page),
    "customer-link-renew": Rule(post=DECIDES, args=a_customer_page),
    "sheet-issue": Rule(post=DECIDES, args=given("labels")),
    "sheet-print": Rule(get=EVERY, args=a_print(to_issue=True)),
    "sheet-print-state": Rule(get=EVERY, args=a_print(to_issue=True)),
    "sheet-print-again": Rule(post=EVERY, args=a_print(to_issue=False)),
    "sheet-print-again to issue": Rule(post=DECIDES, args=a_print(to_issue=True)),
    "sheet-issued": Rule(get=EVERY, args=an_issued_sheet("f")),
    "sheet-issued with all of the job": Rule(get=PRICES, args=an_issued_sheet("")),
}
# Before anybody is signed in; `account-session-end` finds one's own sessions only.
APART = {
    "worker",
    "login",
    "second-step",
    "logout",
    "set_language",
    "account-session-end",
    "certificate",
}


# Open to everybody, also on the public address, and what stands in the address of each.
_BY_TOKEN = ("panel-page", "offer-page", "offer-paper", "calendar-feed", "sheet-standing")
_BY_TOKEN += ("customer-page", "customer-paper")
PUBLIC: dict[str, list[Any]] = {name: ["token"] for name in _BY_TOKEN}
PUBLIC |= {name: ["token", 1] for name in ("panel-page-photo", "offer-photo", "customer-photo")}
