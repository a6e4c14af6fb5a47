"""The addresses: pages of several rooms first, then room by room."""

from django.urls import include, path

urlpatterns = [
    path("", include("wareboard.web.sign_in.urls")),
    path("", include("wareboard.web.pages.urls")),
    path("pictures/", include("wareboard.records.pictures.urls")),
    path("shelf/", include("wareboard.records.shelf.urls")),
    path("kiln/", include("wareboard.records.kiln.urls")),
    path("ware/", include("wareboard.records.ware.urls")),
    path("glazes/", include("wareboard.records.glazes.urls")),
    path("stores/", include("wareboard.records.stores.urls")),
]

handler400 = "wareboard.web.faults.bad_request"
handler403 = "wareboard.web.faults.forbidden"
handler404 = "wareboard.web.faults.not_found"
handler500 = "wareboard.web.faults.server_error"
