"""Whether requests should be sent here: not while draining, and not while the database does not answer."""

import asyncio
from collections.abc import Callable
from time import monotonic

CAP_S = 0.5
OPENING_CAP_S = 5.0
"""For the first question, which opens the database: its library alone takes a while to load."""
KEPT_S = 1.0


class Readiness:
    """Asks the database, at most once a second and one question at a time, and never waits long."""

    def __init__(self, ping: Callable[[], None], *, cap_s: float = CAP_S, opening_cap_s: float = OPENING_CAP_S) -> None:
        self.draining = False
        self._ping = ping
        self._cap_s = cap_s
        self._opening_cap_s = opening_cap_s
        self._has_answered = False
        self._asked: asyncio.Future[None] | None = None
        self._asked_at_s = 0.0

    async def obstacle(self) -> str | None:
        """Why no requests should come, or None."""
        if self.draining:
            return "The service is stopping."
        return None if await self._database_answers() else "The database does not answer."

    async def _database_answers(self) -> bool:
        question = self._question()
        await asyncio.wait({question}, timeout=self._cap_s if self._has_answered else self._opening_cap_s)
        answered = question.done() and question.exception() is None
        self._has_answered = self._has_answered or answered
        return answered

    def _question(self) -> "asyncio.Future[None]":
        """The question under way, or a fresh answer, or a new question: a dead database must not collect threads."""
        is_stale = monotonic() - self._asked_at_s > KEPT_S
        if self._asked is None or (self._asked.done() and is_stale):
            self._asked = asyncio.ensure_future(asyncio.to_thread(self._ping))
            self._asked_at_s = monotonic()
        return self._asked
