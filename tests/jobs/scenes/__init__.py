"""Small jobs with a story, each read by the names of its rows: `hatchback.box`, `van.link`.

A scene knows nothing of the demo. A test asks for one by fixture (`tests/conftest.py`), changes
what it is about and works from the figures that stand here.
"""

from tests.jobs.scenes.hatchback import Hatchback, set_hatchback
from tests.jobs.scenes.saloon import Saloon, set_saloon
from tests.jobs.scenes.scene import Scene, read_again
from tests.jobs.scenes.van import Van, set_van

__all__ = [
    "Hatchback",
    "Saloon",
    "Scene",
    "Van",
    "read_again",
    "set_hatchback",
    "set_saloon",
    "set_van",
]
