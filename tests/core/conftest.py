"""Property tests of the core: no time limit for one case, machines are shared."""

from hypothesis import settings

settings.register_profile("no deadline", deadline=None)
settings.load_profile("no deadline")
