"""Who does long work, and what is kept of it.

Takes in what was typed; gives out workers and a store, and has sites drawn with them.
Refuses a number of processes that is none, and a cluster together with processes.
"""

import functools
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TypeVar

import click

from guidegen.build.cluster import Cluster, NoCluster
from guidegen.build.engine_hash import program_hash
from guidegen.build.fleet_memory import keep_memory
from guidegen.build.kept_shell import shell_of
from guidegen.build.prove import Outcome
from guidegen.build.publication import Publication
from guidegen.build.store import Store, open_store
from guidegen.build.workers import AsWorthIt, Workers, usual_count, workers_of
from guidegen.site.shell import Shell

F = TypeVar("F", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True)
class Work:
    """Who does it, and what is kept."""

    workers: Workers
    store: Store


def worker_options(command: F) -> Callable[..., Any]:
    """Give *command* the options of who works, and `Workers` as its argument ``workers``.

    It is given none if nothing is asked for. A cluster that cannot be used is wrong usage, told
    before anything is read.
    """

    @click.option(
        "--workers",
        type=click.IntRange(1, 256),
        default=None,
        show_default="as many as this machine has cores, for fleets that are worth it",
        help="How many processes do the work; the output is the same for any number.",
    )
    @click.option(
        "--cluster",
        metavar="ADDRESS",
        default=None,
        help="Have the workers of a dask scheduler do the work, as in tcp://10.0.0.5:8786.",
    )
    @functools.wraps(command)
    def with_workers(
        *given: object, workers: int | None, cluster: str | None, **named: object
    ) -> object:
        if workers is not None and cluster is not None:
            raise click.UsageError("--cluster and --workers do not go together")
        chosen: Workers | None = workers_of(workers) if workers else None
        try:
            if cluster:
                chosen = Cluster(cluster)
                chosen.check()
            return command(*given, workers=chosen, **named)
        except NoCluster as unusable:
            raise click.UsageError(f"--cluster: {unusable}") from unusable

    return with_workers


def work_options(command: F) -> Callable[..., Any]:
    """Give *command* the options of long work, and a `Work` as its argument ``work``."""

    @worker_options
    @click.option(
        "--shared",
        type=click.Path(path_type=Path, file_okay=False, exists=True),
        default=None,
        help="Folder that this machine and all workers of --cluster see under the same path; "
        "trucks are handed over in it.",
    )
    @click.option("--anew", is_flag=True, help="Make everything, and use nothing made before.")
    @functools.wraps(command)
    def with_work(
        *given: object, workers: Workers | None, shared: Path | None, anew: bool, **named: object
    ) -> object:
        if shared is not None and not isinstance(workers, Cluster):
            raise click.UsageError("--shared goes with --cluster only")
        if isinstance(workers, Cluster) and shared is not None:
            workers = replace(workers, shared=shared.resolve())
        program = program_hash()
        store = Store(None, program) if anew else open_store(program)
        chosen = workers or AsWorthIt(usual_count())
        return command(*given, work=Work(chosen, store), **named)

    return with_work


def publish(publication: Publication, target: Path, work: Work) -> Outcome:
    """Publish *publication* as the site at *target*, and return what came of it.

    Raises:
        FaultyInput: If a page of the fleet's own has no place for the trucks.
        NoCluster: If no cluster answers.
    """
    config_file, fleet, theme_dir = (
        publication.project.config_file,
        publication.fleet,
        publication.theme_dir,
    )

    def draw() -> Shell:
        # The site engine takes a while to be read in, and is asked for only if settings change.
        from guidegen.mkdocs_plugin import draw_shell  # noqa: PLC0415

        return draw_shell(config_file, fleet, theme_dir)

    shell = shell_of(config_file, theme_dir, fleet, work.store, draw)
    outcome = publication.publish(shell, target)
    if outcome.published:
        keep_memory(publication.memory, work.store, publication.project.root, target)
        work.store.tidy()
    return outcome
