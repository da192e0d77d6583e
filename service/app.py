"""Joins the rooms into one application."""

import gc
import signal
import threading
from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import asynccontextmanager
from datetime import datetime
from functools import cache, partial
from importlib.metadata import PackageNotFoundError
from importlib.metadata import version as installed_version
from pathlib import Path
from types import FrameType
from typing import Any

from fastapi import FastAPI

from service.api.browsers import Browsers
from service.api.calculation_list import list_operation
from service.api.calculations import CalculationEndpoint, Kitchen, calculation_operation
from service.api.cut_list import cut_operation
from service.api.docs_page import undocumented_routes
from service.api.document import document
from service.api.ingredient_list import ingredient_operation
from service.api.line_operations import line_operations
from service.api.operations import running_operations
from service.api.pictures import picture_operations
from service.api.readiness import Readiness
from service.api.reading import BodyLimits, LineLimits
from service.api.routes import Operation, OperationRoute, add_routes
from service.api.rule_list import rule_operations
from service.api.shell import Shell
from service.api.unit_list import UNITS
from service.api.workers import WorkerLimits, Workers
from service.calculations.declaration import AnyCalculation
from service.calculations.libraries import load_libraries
from service.calculations.registry import CALCULATIONS
from service.observability.log import open_log
from service.quantities.units import units
from service.rules.book import RuleBook
from service.rules.loader import load_book
from service.settings import Settings, zone_of

WARMING_DELAY_S = 2.0
"""After pint is read."""
LOADING_CAP_S = 10.0


class Pellicle(FastAPI):
    """The application, with its document made from the declarations."""

    def __init__(self, operations: Sequence[Operation], version: str, **options: Any) -> None:
        super().__init__(
            title="Pellicle", version=version, openapi_url=None, docs_url=None, redoc_url=None,
            redirect_slashes=False,
            telemetry={"tracing": False, "metrics": False, "logs": False}, **options,
        )  # fmt: skip
        self.operations = tuple(operations)

    def openapi(self) -> dict[str, Any]:
        """The OpenAPI document. Served are the committed bytes; a test holds the two together."""
        return document(self.operations, self.version)


def create_app(
    settings: Settings,
    book: RuleBook,
    calculations: Sequence[AnyCalculation] = CALCULATIONS,
    now: Callable[[], datetime] | None = None,
) -> Pellicle:
    """The application for these settings; the clock may be handed in."""
    zone = zone_of(settings.time_zone)

    def clock() -> datetime:
        return (now() if now else datetime.now(zone)).astimezone(zone).replace(microsecond=0)

    limits = WorkerLimits(settings.worker_processes, settings.worker_queue, deadline_s=settings.heavy_deadline_s)
    workers = Workers(partial(load_book, book.engine.pellicle), calculations, limits)
    readiness = Readiness(lambda: _store(settings.database_url).ping())
    log = open_log(settings.log)
    kitchen = Kitchen(
        book, clock, BodyLimits(settings.body_limit_bytes, deadline_s=settings.body_deadline_s),
        LineLimits(settings.line_limit_bytes, idle_s=settings.lines_idle_s), workers, log,
    )  # fmt: skip
    endpoints = tuple(CalculationEndpoint(calculation, kitchen) for calculation in calculations)
    operations = (
        *(calculation_operation(endpoint) for endpoint in endpoints),
        *line_operations(endpoints, kitchen),
        *picture_operations(endpoints, kitchen),
        list_operation(calculations, book),
        UNITS,
        ingredient_operation(book),
        cut_operation(book),
        *rule_operations(book, kitchen.today),
        *running_operations(readiness),
    )
    app = Pellicle(operations, book.engine.pellicle, lifespan=_life(settings, readiness, workers))
    documented = (OperationRoute(one.path, one.method, one.handle, one.id) for one in operations)
    add_routes(app, (*documented, *undocumented_routes()))
    if settings.cors_origins:
        app.add_middleware(Browsers, origins=settings.cors_origins)
    app.add_middleware(Shell, log=log)
    return app


def from_environment() -> Pellicle:
    """The application as the environment says: what the server calls in each of its processes."""
    app = create_app(Settings(), load_book(version()))
    gc.freeze()  # none of this will ever be rubbish; see __main__.py
    gc.enable()
    return app


def version() -> str:
    """The version of the code, also where it runs from a working tree without being installed."""
    try:
        return installed_version("pellicle")
    except PackageNotFoundError:
        import tomllib

        project = tomllib.loads((Path(__file__).parents[1] / "pyproject.toml").read_text("utf-8"))
        return str(project["project"]["version"])


@cache
def _store(database_url: str) -> Any:
    from service.records.store import open_store  # sqlalchemy takes 0.2 s: on first use, not at start

    return open_store(database_url)


def _life(settings: Settings, readiness: Readiness, workers: Workers) -> Callable[[FastAPI], Any]:
    @asynccontextmanager
    async def life(_: FastAPI) -> AsyncIterator[None]:
        if settings.drain_delay_s and threading.current_thread() is threading.main_thread():
            _drain_first(readiness, settings.drain_delay_s)
        stopping = threading.Event()
        warming = threading.Thread(target=_warm, args=(stopping,), daemon=True)
        warming.start()
        yield
        stopping.set()
        workers.stop()
        # Python may fall over a thread that is still loading a library while it stops.
        warming.join(LOADING_CAP_S)

    return life


def _warm(stopping: threading.Event) -> None:
    """Load what is slow while nobody waits: pint's units, then what the first cure time would have to wait for.

    Reading pint's definitions takes half a second, numpy and scipy together a second more: so much later, not to be in
    the way of the first answers, and not at all when the service stops before.
    """
    units()
    if not stopping.wait(WARMING_DELAY_S):
        load_libraries()


def _drain_first(readiness: Readiness, delay_s: float) -> None:
    """On the order to stop, say so at /readyz, and stop only after a while."""
    stop = signal.getsignal(signal.SIGTERM)

    def drain(number: int, _: FrameType | None) -> None:
        readiness.draining = True
        if callable(stop):
            threading.Timer(delay_s, stop, (number, None)).start()

    signal.signal(signal.SIGTERM, drain)
