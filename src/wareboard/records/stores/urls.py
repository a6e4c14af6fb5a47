"""Addresses of the stores."""

from django.urls import path

from . import views

app_name = "stores"
urlpatterns = [
    path("", views.home, name="home"),
    path("new-material/", views.new_material, name="new-material"),
    path("materials/<slug:material_id>/new-lot/", views.new_lot, name="new-lot"),
    path("materials/<slug:material_id>/sheet/", views.new_sheet, name="new-sheet"),
    path("materials/<slug:material_id>/stand-in/", views.stand_in, name="stand-in"),
    path("sheets/<slug:sheet_id>/", views.right_sheet, name="right-sheet"),
    path("lots/<slug:lot_id>/sheet/", views.lot_sheet, name="lot-sheet"),
    path("lots/<slug:lot_id>/count/", views.count, name="count"),
]
