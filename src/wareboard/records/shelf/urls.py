"""Addresses of the shelf."""

from django.urls import path

from wareboard.records.people.later import pages_of

app_name = "shelf"
page = pages_of(__package__)
urlpatterns = [
    path("", page("views.home"), name="home"),
    path("pots/<slug:pot_id>/judge/", page("views.judge"), name="judge"),
]
