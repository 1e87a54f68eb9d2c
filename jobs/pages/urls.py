"""The addresses of every page, one module each."""

from django.contrib.auth import views as auth_views
from django.urls import URLPattern, URLResolver, include, path

from jobs.pages import (
    bay,
    board,
    box_copy,
    boxes,
    brief,
    cabin,
    car,
    catalogue,
    channels,
    equipment,
    findings,
    panels,
    power,
    runs,
    schedule,
    sheets,
    study,
    style,
    targets,
    workshop,
)

urlpatterns: list[URLPattern | URLResolver] = [
    path("sign-in/", auth_views.LoginView.as_view(), name="login"),
    path("sign-out/", auth_views.LogoutView.as_view(), name="logout"),
    path("language/", include("django.conf.urls.i18n")),
    *board.urlpatterns,
    *workshop.urlpatterns,
    *style.urlpatterns,
    *catalogue.urlpatterns,
    *brief.urlpatterns,
    *car.urlpatterns,
    *equipment.urlpatterns,
    *channels.urlpatterns,
    *boxes.urlpatterns,
    *box_copy.urlpatterns,
    *study.urlpatterns,
    *cabin.urlpatterns,
    *targets.urlpatterns,
    *power.urlpatterns,
    *runs.urlpatterns,
    *schedule.urlpatterns,
    *panels.urlpatterns,
    *findings.urlpatterns,
    *bay.urlpatterns,
    *sheets.urlpatterns,
]
