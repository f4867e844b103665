"""``./run bench``: how long planning takes, and how that compares with a plain loop and with the speed of memory."""

import os
import platform
from collections.abc import Iterable
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np

from benchmarks import colour
from benchmarks.coats import Coat, coats_of, differences
from benchmarks.measure import best_s, child, copy_bytes_per_s, median_s
from laydown.desk.papers.files import open_job
from laydown.physics.film.wet_film import Surroundings, dry
from laydown.planning.plan import Stamp, make_plan, plan_from
from laydown.planning.setup.request import Request
from laydown.planning.setup.setup import setup_of, with_job
from laydown.trade.mixing.paint_classes import ready_mix

JOBS = sorted((Path(__file__).parents[1] / "src" / "laydown" / "data" / "jobs").glob("*.toml"))
COLUMNS = 10_000


def line(what: str, *values: str) -> None:
    """One row of the table."""
    print(f"{what:<34}" + "".join(f"{value:>17}" for value in values), flush=True)


def head(title: str, *units: str) -> None:
    """The head of a part of the table."""
    print()
    line(title, *units)
    print("-" * (34 + 17 * len(units)))


def warmer(request: Request, step_k: float) -> Request:
    """The same job in air a little warmer."""
    air = request.job.air
    figure = replace(air.temperature_c, value=air.temperature_c.value + step_k)
    return replace(request, job=replace(request.job, air=replace(air, temperature_c=figure)))


def cold() -> None:
    """Whole program from the shell: interpreter, imports, files, plan, document."""
    head("plan JOB --json, from the shell", "best of 3 [s]", "peak [MB]")
    for job in JOBS:
        runs = [child(["-m", "laydown", "plan", str(job), "--json"]) for _ in range(3)]
        line(job.stem, f"{min(time for time, _ in runs):.2f}", f"{max(peak for _, peak in runs):.0f}")


def warm(requests: dict[str, Request]) -> None:
    """A plan again, after the air changed, in a program that runs."""
    head("plan again, other air", "as `try` does [ms]", "water alone [ms]", "whole plan [ms]")
    stamp = Stamp("bench")
    for name, request in requests.items():
        setup = setup_of(request)
        plan_from(setup, stamp, thorough=False, drawn=False)
        steps = [warmer(request, 0.1 * n).job for n in range(1, 11)]
        wetter = [wet(request, 0.01 * n).job for n in range(1, 11)]
        again, water = (
            [partial(plan_from, with_job(setup, job), stamp, thorough=False, drawn=False) for job in jobs]
            for jobs in (steps, wetter)
        )
        whole = [partial(make_plan, warmer(request, 0.1 * n)) for n in range(11, 14)]
        line(name, *(f"{1e3 * median_s(one):.0f}" for one in (again, water, whole)))


def wet(request: Request, share: float) -> Request:
    """The same job with a fixed share of water."""
    return replace(request, job=replace(request.job, choices=replace(request.job.choices, water=share)))


def simulated(coats: Iterable[tuple[str, Coat]]) -> None:
    """One coat, all of it: film, ages of joins, fog, balance."""
    speed = copy_bytes_per_s()
    head("one coat, all of it", "ours [ms]", "plain loop [ms]", "ratio", "most apart [1]", "times memory")
    for name, coat in coats:
        apart = max(differences(coat.ours(), coat.plain()).values())
        ours, plain = best_s(coat.ours, 15), best_s(coat.plain, 2)
        bound = coat.least_bytes() / speed
        line(
            f"{name}, {coat.name}",
            f"{1e3 * ours:.2f}",
            f"{1e3 * plain:.0f}",
            f"{plain / ours:.0f}",
            f"{apart:.0e}",
            f"{ours / bound:.0f}",
        )
    print(
        f"memory copies {speed / 1e9:.1f} GB/s here; 'times memory' is ours over film written and factors read once"
    )


def filmed() -> None:
    """The drying film of many masses at once."""
    head("drying film", "time [ms]", "per second")
    wet = ready_mix("standard", 0.0, activated=False)
    air = Surroundings(20.0, 0.5, 0.3, 20.0, 2952.0, 4.0)
    masses = np.linspace(10.0, 90.0, COLUMNS)
    columns = best_s(lambda: dry(masses, wet, air), 3)
    line(f"{COLUMNS:,} columns until matt", f"{1e3 * columns:.0f}", f"{COLUMNS / columns:,.0f} columns")


def main() -> None:
    """Measure and print."""
    load = f", load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores" if hasattr(os, "getloadavg") else ""
    print(
        f"Python {platform.python_version()}, numpy {np.__version__}{load}; less is better, except ratios and rates"
    )
    requests = {job.stem: open_job(job) for job in JOBS}
    cold()
    warm(requests)
    simulated((name, coat) for name, request in requests.items() for coat in coats_of(request))
    filmed()
    colour.main()


if __name__ == "__main__":
    main()
