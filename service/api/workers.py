"""Long calculations, in processes of their own, so that the event loop stays free."""

import asyncio
import time
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from multiprocessing import get_context

from service.api.telling import Teller, in_json
from service.api.worker import BookLoader, DeadlinePassed, Declined, WorkerFailed, WorkersError, compute, prepare
from service.calculations.declaration import AnyCalculation
from service.quantities.models import Request


class Overloaded(WorkersError):
    """As many calculations wait as may wait."""


@dataclass(frozen=True, slots=True)
class WorkerLimits:
    """How many processes there are, how many calculations may be under way or wait, and for how long."""

    processes: int
    most_waiting: int
    deadline_s: float


class Workers:
    """A pool of processes, started when it is first needed."""

    def __init__(self, load: BookLoader, calculations: Iterable[AnyCalculation], limits: WorkerLimits) -> None:
        self._told = (load, tuple(calculations))
        self._limits = limits
        self._pool: ProcessPoolExecutor | None = None
        self._under_way = 0

    async def run(self, name: str, asked: Request, tell: Teller = in_json) -> bytes:
        """An answer, as JSON or as it is to be told. Raises what the calculation refuses with, or a WorkersError."""
        if self._under_way >= self._limits.processes + self._limits.most_waiting:
            raise Overloaded
        self._under_way += 1
        try:
            done = await self._wait_for(name, asked, tell)
        finally:
            self._under_way -= 1
        if isinstance(done, Declined):
            raise done.refusal()
        return done

    async def _wait_for(self, name: str, asked: Request, tell: Teller) -> bytes | Declined:
        deadline = time.time() + self._limits.deadline_s
        pool = self._started()
        try:
            job = asyncio.get_running_loop().run_in_executor(pool, compute, name, asked, deadline, tell)
            return await asyncio.wait_for(job, self._limits.deadline_s)
        except TimeoutError:
            raise DeadlinePassed from None
        except BrokenProcessPool as error:
            if self._pool is pool:  # else somebody who waited for it too has let go of it, and another is running
                self.stop()
            raise WorkerFailed("the process died") from error

    def _started(self) -> ProcessPoolExecutor:
        if self._pool is None:
            self._pool = ProcessPoolExecutor(
                self._limits.processes, mp_context=get_context("spawn"), initializer=prepare, initargs=self._told
            )
        return self._pool

    def stop(self) -> None:
        """Let go of the processes; what is still under way is given up."""
        pool, self._pool = self._pool, None
        if pool is not None:
            pool.shutdown(wait=False, cancel_futures=True)
