"""Addresses of coming in and going out, and what strangers may ask."""

from django.urls import path

from . import views

urlpatterns = [
    path("sign-in/", views.sign_in, name="sign-in"),
    path("sign-in/password/", views.set_password, name="set-password"),
    path("sign-in/<str:key>/", views.use_key, name="use-key"),
    path("sign-out/", views.sign_out, name="sign-out"),
    path("health/", views.health, name="health"),
    path("status/", views.status, name="status"),
]
