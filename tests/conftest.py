"""How the tests run: the same every time, unless one asks Hypothesis to roam."""

import pytest
from hypothesis import settings

# No deadlines: two cores are shared. `pytest --hypothesis-profile=roam` tries new examples each time.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.register_profile("roam", deadline=None, print_blob=True)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--renew-pictures` writes the golden pictures anew; look at them before they are committed."""
    parser.addoption("--renew-pictures", action="store_true", help="write the golden pictures anew")


@pytest.fixture
def renew_pictures(request: pytest.FixtureRequest) -> bool:
    """Whether golden pictures are written anew."""
    return bool(request.config.getoption("--renew-pictures"))
