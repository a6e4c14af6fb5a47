"""Addresses of the glaze room."""

from django.urls import path

from . import batch_views, right_views, views

app_name = "glazes"
urlpatterns = [
    path("new-glaze/", views.new_glaze, name="new-glaze"),
    path("glazes/<slug:glaze_id>/", views.glaze_page, name="glaze"),
    path("glazes/<slug:glaze_id>/new-version/", views.new_version, name="new-version"),
    path("glazes/<slug:glaze_id>/new-bucket/", views.new_bucket, name="new-bucket"),
    path("glazes/<slug:glaze_id>/new-batch/", batch_views.new_batch, name="new-batch"),
    path("glazes/<slug:glaze_id>/draw/", batch_views.draw, name="draw"),
    path("batches/<slug:batch_id>/", batch_views.batch_page, name="batch"),
    path("batches/<slug:batch_id>/pour/", batch_views.pour_batch, name="pour"),
    path("batch-lines/<slug:batch_line_id>/", right_views.correct_line, name="correct-line"),
    path("buckets/<slug:bucket_id>/change/", views.change, name="change"),
    path("buckets/<slug:bucket_id>/name/", views.name_bucket, name="name-bucket"),
    path("buckets/<slug:bucket_id>/bottle/", right_views.bottle_right, name="bottle"),
    path("readings/<slug:reading_id>/", right_views.correct_reading, name="correct-reading"),
    path("changes/<slug:bucket_event_id>/", right_views.correct_change, name="correct-change"),
    path("buckets/<slug:bucket_id>/fill/", batch_views.fill, name="fill"),
]
