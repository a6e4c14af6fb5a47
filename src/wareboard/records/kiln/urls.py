"""Addresses of the kiln room."""

from django.urls import path

from . import views

app_name = "kiln"
urlpatterns = [
    path("loads/<slug:load_id>/before-lighting/", views.before_lighting, name="before-lighting"),
    path("firings/<slug:firing_id>/", views.firing, name="firing"),
    path("air/", views.air, name="air"),
]
