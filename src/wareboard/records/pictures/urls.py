"""Addresses of photos and spoken notes."""

from django.urls import path, re_path

from wareboard.records.people.later import pages_of

from .kinds import SIZES

app_name = "pictures"
page = pages_of(__package__)
urlpatterns = [
    path("<slug:original_id>/original/", page("views.original"), name="original"),
    re_path(
        rf"^(?P<original_id>[-\w]+)/(?P<size>{'|'.join(SIZES)})/$", page("views.view"), name="view"
    ),
]
