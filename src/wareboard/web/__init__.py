"""The Django project: settings, addresses, checks, and pages that need several rooms."""
