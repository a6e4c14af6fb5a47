"""What the server calls; it does not start on a record of another version."""

from django.conf import settings
from django.core.wsgi import get_wsgi_application

from wareboard.records.keeping.data_folder import DataFolder

application = get_wsgi_application()

from wareboard.records.keeping.migrating import (  # noqa: E402 - needs the apps
    refuse_unless_current,
)

refuse_unless_current(DataFolder(settings.DATA))
