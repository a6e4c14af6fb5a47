"""Addresses of the shelf."""

from django.urls import path

from . import views

app_name = "shelf"
urlpatterns = [
    path("", views.home, name="home"),
    path("pots/<slug:pot_id>/judge/", views.judge, name="judge"),
]
