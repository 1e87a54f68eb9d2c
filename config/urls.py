"""Every address of the app; each page lists its own in jobs/pages/urls.py."""

from django.urls import include, path

urlpatterns = [path("", include("jobs.pages.urls"))]
handler500 = "jobs.pages.broken.broken"
