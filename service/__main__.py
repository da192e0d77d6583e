"""The command line: pellicle serve, pellicle openapi, pellicle rules check."""

import gc
import json
import os
import shlex
from pathlib import Path
from typing import Annotated, Any

import typer
from pydantic import ValidationError

from service.settings import Settings

commands = typer.Typer(name="pellicle", add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False)
rules = typer.Typer(help="The rule files.", rich_markup_mode=None)
commands.add_typer(rules, name="rules")

GRACEFUL_S = 20
KEEP_ALIVE_S = 5
BACKLOG = 512


@commands.callback()
def pellicle() -> None:
    """Cure dosing, planning, thermal figures and traceability for kitchens that cure and smoke meat."""


@commands.command()
def serve(
    host: Annotated[str | None, typer.Option(help="Address to listen on.")] = None,
    port: Annotated[int | None, typer.Option(help="Port to listen on.")] = None,
    database_url: Annotated[str | None, typer.Option(help="Where records are kept.")] = None,
    workers: Annotated[int | None, typer.Option(help="Server processes.")] = None,
) -> None:
    """Serve the API. Options win over the environment (PELLICLE_HOST and so on)."""
    given = {"host": host, "port": port, "database_url": database_url, "workers": workers}
    # Server processes read the environment too, so that is where the options go.
    os.environ.update({f"PELLICLE_{name.upper()}": str(value) for name, value in given.items() if value is not None})
    _run()


def _settings() -> Settings:
    try:
        return Settings()
    except ValidationError as error:
        for one in error.errors():
            typer.echo(f"PELLICLE_{str(one['loc'][0]).upper()}: {one['msg']}", err=True)
        raise typer.Exit(2) from None


def _run() -> None:
    gc.disable()  # what is imported stays: searching it for rubbish costs a tenth of the start
    import uvicorn

    settings = _settings()
    typer.echo(_greeting(f"http://{settings.host}:{settings.port}"))
    uvicorn.run(
        "service.app:from_environment", factory=True, host=settings.host, port=settings.port, workers=settings.workers,
        http="httptools" if _is_installed("httptools") else "h11", ws="none", lifespan="on", server_header=False,
        access_log=False, log_config=None, forwarded_allow_ips=settings.forwarded_allow_ips, backlog=BACKLOG,
        limit_concurrency=settings.connection_limit, timeout_keep_alive=KEEP_ALIVE_S,
        timeout_graceful_shutdown=GRACEFUL_S,
    )  # fmt: skip


def _is_installed(module: str) -> bool:
    from importlib.util import find_spec

    return find_spec(module) is not None


def _greeting(address: str) -> str:
    from service.api.examples import examples_of
    from service.calculations.registry import CALCULATIONS

    first = [(calculation.name, examples_of(calculation)) for calculation in CALCULATIONS[:1]]
    tries = [f"Try: {_curl(f'{address}/v1/{name}', examples[0].request)}" for name, examples in first if examples]
    return "\n".join((f"Pellicle listens on {address}", f"Documentation: {address}/docs", *tries))


def _curl(url: str, body: Any) -> str:
    written = shlex.quote(json.dumps(body, separators=(",", ":")))
    return f"curl -s {url} -H 'Content-Type: application/json' -d {written}"


@commands.command("openapi")
def print_openapi(
    write: Annotated[Path | None, typer.Option(help="File to write instead of printing.")] = None,
) -> None:
    """Print the OpenAPI document of this version, or write it to a file."""
    from service.api.document import written
    from service.app import from_environment

    document = written(from_environment().openapi())
    if write is None:
        typer.echo(document.decode(), nl=False)
    else:
        write.write_bytes(document)


@rules.command("check")
def check_rules(
    folder: Annotated[Path | None, typer.Argument(help="Folder of rule files; the ones in use without it.")] = None,
) -> None:
    """Read every rule file and report what is wrong with each."""
    from service.rules.loader import DATA, check

    complaints = check(DATA if folder is None else folder)
    for complaint in complaints:
        typer.echo(str(complaint))
    if complaints:
        raise typer.Exit(1)
    typer.echo("Every rule file can be read.")


def main() -> None:
    """Run the command line."""
    commands()


if __name__ == "__main__":
    main()
