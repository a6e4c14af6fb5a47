"""Addresses of the glaze room."""

from django.urls import path

from wareboard.records.people.later import pages_of

app_name = "glazes"
page = pages_of(__package__)
urlpatterns = [
    path("new-glaze/", page("views.new_glaze"), name="new-glaze"),
    path("glazes/<slug:glaze_id>/", page("views.glaze_page"), name="glaze"),
    path("glazes/<slug:glaze_id>/new-version/", page("views.new_version"), name="new-version"),
    path("glazes/<slug:glaze_id>/new-bucket/", page("views.new_bucket"), name="new-bucket"),
    path("glazes/<slug:glaze_id>/new-batch/", page("batch_views.new_batch"), name="new-batch"),
    path("glazes/<slug:glaze_id>/draw/", page("batch_views.draw"), name="draw"),
    path("batches/<slug:batch_id>/", page("batch_views.batch_page"), name="batch"),
    path("batches/<slug:batch_id>/pour/", page("batch_views.pour_batch"), name="pour"),
    path(
        "batch-lines/<slug:batch_line_id>/", page("right_views.correct_line"), name="correct-line"
    ),
    path("buckets/<slug:bucket_id>/change/", page("views.change"), name="change"),
    path("buckets/<slug:bucket_id>/name/", page("views.name_bucket"), name="name-bucket"),
    path("buckets/<slug:bucket_id>/bottle/", page("right_views.bottle_right"), name="bottle"),
    path(
        "readings/<slug:reading_id>/", page("right_views.correct_reading"), name="correct-reading"
    ),
    path(
        "changes/<slug:bucket_event_id>/", page("right_views.correct_change"), name="correct-change"
    ),
    path("buckets/<slug:bucket_id>/fill/", page("batch_views.fill"), name="fill"),
]
