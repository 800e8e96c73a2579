"""How the tests run: the same every time, unless one asks Hypothesis to roam."""

from hypothesis import settings

# No deadlines: two cores are shared. `pytest --hypothesis-profile=roam` tries new examples each time.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.register_profile("roam", deadline=None, print_blob=True)
settings.load_profile("steady")
