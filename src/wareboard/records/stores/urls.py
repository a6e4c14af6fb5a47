"""Addresses of the stores."""

from django.urls import path

from wareboard.records.people.later import pages_of

app_name = "stores"
page = pages_of(__package__)
urlpatterns = [
    path("", page("views.home"), name="home"),
    path("new-material/", page("views.new_material"), name="new-material"),
    path("materials/<slug:material_id>/new-lot/", page("views.new_lot"), name="new-lot"),
    path("materials/<slug:material_id>/sheet/", page("views.new_sheet"), name="new-sheet"),
    path("materials/<slug:material_id>/stand-in/", page("views.stand_in"), name="stand-in"),
    path("sheets/<slug:sheet_id>/", page("views.right_sheet"), name="right-sheet"),
    path("lots/<slug:lot_id>/sheet/", page("views.lot_sheet"), name="lot-sheet"),
    path("lots/<slug:lot_id>/count/", page("views.count"), name="count"),
]
