"""What can be wrong with a data folder or a backup, said so that a potter can act.

::

    CoreError                a value that cannot be, or cannot be used here
    └── KeepingError
        ├── FolderRefused    a data folder that cannot be used as it is
        │   ├── FolderInUse  another program has it open
        │   └── RecordLost   a record was here and is missing or damaged
        ├── RecordNewer      a record written by a later version of this program
        ├── PortTaken        another program listens there
        └── BackupRefused    a backup that cannot be made or put back

All carry ``field``, ``seen``, ``accepted`` and ``say`` as their root does, so
that every command reports them in the same way.
"""

from wareboard.core.errors import CoreError


class KeepingError(CoreError):
    """Something that concerns the whole record."""


class FolderRefused(KeepingError):
    """A data folder that cannot be used as it is."""


class FolderInUse(FolderRefused):
    """Another program has the folder open."""


class RecordLost(FolderRefused):
    """A record was here and is missing or damaged: nothing new is started in its place."""


class RecordNewer(KeepingError):
    """A record or a backup written by a later version of this program."""


class PortTaken(KeepingError):
    """Another program listens on the port."""


class BackupRefused(KeepingError):
    """A backup that cannot be made or put back; nothing was changed."""
