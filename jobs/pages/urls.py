"""The addresses of every page, one module each."""

from django.contrib.auth.decorators import login_not_required
from django.urls import URLPattern, URLResolver, path
from django.views.i18n import set_language

from jobs.pages.agreement import accounts, agreement, hours, options, parts, price, rates
from jobs.pages.bay import acts, as_built, bay, closing, gate, looked, measure, notes, pictures
from jobs.pages.box import as_built as box_as_built
from jobs.pages.box import box_copy, boxes, cabin, finished, measured, study, targets
from jobs.pages.calendar import bays, days, own_feed, week
from jobs.pages.history import pages as histories
from jobs.pages.history import places, rights, today
from jobs.pages.job import (
    board,
    brief,
    car,
    car_templates,
    customer_data,
    equipment,
    findings,
    job_page,
    panel_codes,
    panel_sets,
    panels,
    registers,
    search,
    sheets,
    start,
    who,
)
from jobs.pages.portable import files, recall
from jobs.pages.public import feed, standing
from jobs.pages.public import offer as offer_page
from jobs.pages.public import panel as panel_page
from jobs.pages.setup import as_set as channels_as_set
from jobs.pages.setup import measured as channels_measured
from jobs.pages.setup import (
    microphone,
    processor_files,
    proposal,
    signals,
    starting,
    target_curves,
)
from jobs.pages.wiring import channels, choose, grounds, power, runs, schedule, supply, wiring
from jobs.pages.wood import fit, rings_and_trim, shop
from jobs.pages.workshop import (
    account,
    catalogue,
    certificate,
    data_sheet,
    list_page,
    offcuts,
    people,
    second_factor,
    sign_in,
    style,
    upkeep,
    workshop,
)

urlpatterns: list[URLPattern | URLResolver] = [
    *sign_in.urlpatterns,
    path("language/", login_not_required(set_language), name="set_language"),
    *board.urlpatterns,
    *registers.urlpatterns,
    *search.urlpatterns,
    *start.urlpatterns,
    *job_page.urlpatterns,
    *who.urlpatterns,
    *histories.urlpatterns,
    *rights.urlpatterns,
    *today.urlpatterns,
    *places.urlpatterns,
    *files.urlpatterns,
    *recall.urlpatterns,
    *workshop.urlpatterns,
    *rates.urlpatterns,
    *accounts.urlpatterns,
    *parts.urlpatterns,
    *certificate.urlpatterns,
    *people.urlpatterns,
    *account.urlpatterns,
    *second_factor.urlpatterns,
    *style.urlpatterns,
    *upkeep.urlpatterns,
    *catalogue.urlpatterns,
    *data_sheet.urlpatterns,
    *list_page.urlpatterns,
    *offcuts.urlpatterns,
    *brief.urlpatterns,
    *customer_data.urlpatterns,
    *car_templates.urlpatterns,
    *car.urlpatterns,
    *equipment.urlpatterns,
    *measured.urlpatterns,
    *channels.urlpatterns,
    *boxes.urlpatterns,
    *box_as_built.urlpatterns,
    *finished.urlpatterns,
    *rings_and_trim.urlpatterns,
    *shop.urlpatterns,
    *box_copy.urlpatterns,
    *study.urlpatterns,
    *fit.urlpatterns,
    *cabin.urlpatterns,
    *targets.urlpatterns,
    *power.urlpatterns,
    *wiring.urlpatterns,
    *choose.urlpatterns,
    *supply.urlpatterns,
    *runs.urlpatterns,
    *grounds.urlpatterns,
    *schedule.urlpatterns,
    *panels.urlpatterns,
    *price.urlpatterns,
    *agreement.urlpatterns,
    *options.urlpatterns,
    *hours.urlpatterns,
    *week.urlpatterns,
    *own_feed.urlpatterns,
    *bays.urlpatterns,
    *days.urlpatterns,
    *findings.urlpatterns,
    *bay.urlpatterns,
    *looked.urlpatterns,
    *as_built.urlpatterns,
    *measure.urlpatterns,
    *closing.urlpatterns,
    *gate.urlpatterns,
    *notes.urlpatterns,
    *pictures.urlpatterns,
    *acts.urlpatterns,
    *starting.urlpatterns,
    *signals.urlpatterns,
    *channels_measured.urlpatterns,
    *microphone.urlpatterns,
    *proposal.urlpatterns,
    *target_curves.urlpatterns,
    *channels_as_set.urlpatterns,
    *processor_files.urlpatterns,
    *sheets.urlpatterns,
    *panel_codes.urlpatterns,
    *panel_sets.urlpatterns,
    *panel_page.urlpatterns,
    *offer_page.urlpatterns,
    *standing.urlpatterns,
    *feed.urlpatterns,
]
