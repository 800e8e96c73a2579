"""Every command, for the tests that go over all of them."""

COMMANDS = (
    "check",
    "plan",
    "replay",
    "measure",
    "unit",
    "sheet",
    "rescue",
    "hearsay",
    "strips",
    "blocks",
    "block",
    "cut",
    "shelf",
    "fit",
    "redraft",
)
