"""Addresses of photos and spoken notes."""

from django.urls import path, re_path

from . import views
from .kinds import SIZES

app_name = "pictures"
urlpatterns = [
    path("<slug:original_id>/original/", views.original, name="original"),
    re_path(rf"^(?P<original_id>[-\w]+)/(?P<size>{'|'.join(SIZES)})/$", views.view, name="view"),
]
