"""The addresses of every page."""

from django.contrib.auth import views as auth_views
from django.urls import URLPattern, path

urlpatterns: list[URLPattern] = [
    path("sign-in/", auth_views.LoginView.as_view(), name="login"),
    path("sign-out/", auth_views.LogoutView.as_view(), name="logout"),
]
