from __future__ import annotations

import pytest

from scopegen.case import Case
from tests.rules.laid_over import opened


@pytest.fixture(scope="module")
def case(tmp_path_factory: pytest.TempPathFactory) -> Case:
    """The sound job that rules are tried on."""
    return opened(tmp_path_factory.mktemp("law"))
