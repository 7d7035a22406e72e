"""How long the steps of a build take."""

from time import perf_counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from binder.rendering.typeset import Progress


class Phases:
    """The steps of a build: told as they begin, with the seconds that each took."""

    def __init__(self, progress: "Progress") -> None:
        """Begin with none."""
        self._progress = progress
        self._name = ""
        self._began = perf_counter()
        self.seconds: dict[str, float] = {}

    def begin(self, name: str, done: int = 0, of: int = 0) -> None:
        """End the step before, and begin one or tell how far it is."""
        if name != self._name:
            self.end()
            self._name, self._began = name, perf_counter()
        self._progress(name, done, of)

    def end(self) -> None:
        """End the last step."""
        if self._name:
            self.seconds[self._name] = perf_counter() - self._began
        self._name = ""
