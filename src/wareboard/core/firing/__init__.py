"""What the fire did: heat-work, cones, the climb and the cooling.

The modules that read a log work on numpy arrays; ``bending`` and ``flame`` do
without, so that a page that only needs those loads nothing more.
"""
