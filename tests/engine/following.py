"""Slips of one division followed once for everything that a test asks of it."""

from collections.abc import Iterator
from contextlib import contextmanager
from unittest.mock import patch

from generator.engine.outcomes import simulate
from generator.engine.sharing import Sharing
from generator.engine.slips import Outcome


@contextmanager
def followed_once(sharing: Sharing) -> Iterator[tuple[Outcome, ...]]:
    """Every outcome of the division; all its diagnoses inside the block use these."""
    outcomes = tuple(simulate(sharing))
    with patch("generator.engine.diagnosis.simulate", return_value=outcomes):
        yield outcomes
