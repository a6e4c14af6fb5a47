"""The addresses: pages of several rooms first, then room by room."""

from django.urls import include, path

urlpatterns = [
    path("", include("wareboard.web.sign_in.urls")),
    path("", include("wareboard.web.pages.urls")),
    path("glazes/", include("wareboard.records.glazes.urls")),
]
