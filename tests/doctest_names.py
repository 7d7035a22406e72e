"""What every example in a docstring may use without saying so: the registry, and ``q`` for a quantity of it.

A plugin, named in ``pyproject.toml``: a ``conftest.py`` here does not reach the examples of the package.
"""

from typing import Any

import pytest

from binder.quantities import registry


@pytest.fixture(autouse=True, scope="session")
def _names_of_examples(doctest_namespace: dict[str, Any]) -> None:
    doctest_namespace.update(registry=registry, q=registry.Quantity)
