"""The addresses, room by room."""

from django.urls import path

urlpatterns: list[object] = []
