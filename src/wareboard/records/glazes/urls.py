"""Addresses of the glaze room."""

from django.urls import path

from . import views

app_name = "glazes"
urlpatterns = [
    path("", views.home, name="home"),
]
