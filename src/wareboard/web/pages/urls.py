"""Addresses of the pages that need several rooms."""

from django.urls import path

from . import bucket, undo

app_name = "pages"
urlpatterns = [
    path("glazes/buckets/<slug:bucket_id>/", bucket.bucket_page, name="bucket"),
    path("undo/<slug:kind>/<slug:entry_id>/", undo.undo_entry, name="undo"),
]
