"""Filters that every template has at hand."""

from django import template

register = template.Library()
