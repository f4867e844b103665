"""``python -m benchmarks.colour``: colour differences, coat counts and maps, beside colour-science where it does the same."""

import subprocess
import sys
import warnings

import numpy as np

from benchmarks.measure import best_s
from laydown.physics.colour.coat_count import estimate_coats
from laydown.physics.colour.count_chances import half_coats
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.eye_ranking import Judgement, rank_coats
from laydown.physics.colour.letdown import built_up, fit_letdown
from laydown.physics.colour.screen import preview
from laydown.physics.colour.unevenness import appearance_map, difference_table, summary

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

PAIRS = 250_000
CELLS = 50_000
ZONES = 4
WHITE_RANGE = np.array([130.0, 160.0, 160.0])


def line(what: str, *values: str) -> None:
    """One row of the table."""
    print(f"{what:<46}" + "".join(f"{value:>20}" for value in values), flush=True)


def import_s(module: str) -> float:
    """Least time of three fresh interpreters to import a module, less that of a bare interpreter."""

    def run(code: str) -> float:
        return best_s(lambda: subprocess.run([sys.executable, "-W", "ignore", "-c", code], check=True), 3)

    return run(f"import {module}") - run("pass")


def made_panel() -> tuple[np.ndarray, np.ndarray]:
    """Six fields of five angles with noise."""
    coats = np.arange(6.0)
    dice = np.random.default_rng(1)
    slope = dice.normal(0.0, 2.0, (5, 3))
    lab = np.array([90.0, 0.0, 3.0]) + built_up(coats, np.array(0.15))[:, None, None] * slope
    return coats, lab + 0.09 * dice.standard_normal(lab.shape)


def differences() -> None:
    """CIEDE2000 of many pairs, ours and theirs in turns."""
    dice = np.random.default_rng(2)
    first, second = (np.array([0.0, -80.0, -80.0]) + WHITE_RANGE * dice.random((PAIRS, 3)) for _ in range(2))

    def theirs() -> np.ndarray:
        return colour.delta_E(first, second, method="CIE 2000")

    def ours() -> np.ndarray:
        return de2000(first, second)

    apart = float(np.abs(ours() - theirs()).max())
    times = [(best_s(ours, 1), best_s(theirs, 1)) for _ in range(9)]
    own, other = (min(column) for column in zip(*times, strict=True))
    line(f"CIEDE2000, {PAIRS:,} pairs", f"{1e3 * own:.0f} ms", f"{1e3 * other:.0f} ms", f"{apart:.0e} apart")
    own, other = import_s("laydown.physics.colour.difference"), import_s("colour")
    line("import", f"{1e3 * own:.0f} ms", f"{1e3 * other:.0f} ms", f"{other / own:.1f} times")


def counts() -> None:
    """One panel, four zones, a map and a summary of it."""
    coats, lab = made_panel()
    target = lab[2:4].mean(axis=0)
    film_um = np.random.default_rng(3).normal(10.0, 1.0, CELLS).clip(2.0, 20.0)
    area_m2 = np.full(CELLS, 1e-4)
    fit = fit_letdown(coats, lab, 0.09)

    def whole() -> None:
        panel = fit_letdown(coats, lab, 0.09)
        for zone in range(ZONES):
            half_coats(estimate_coats(panel, target + 0.1 * zone, 0.09))
        summary(appearance_map(difference_table(panel, 2.5), film_um, 10.0), area_m2)

    words = ["too_few", "too_few", "match", "too_many", "too_many", "too_many"]
    judged = [Judgement(float(n), way, word) for way in ("face", "flop") for n, word in enumerate(words)]
    table = difference_table(fit, 2.5)
    line(
        "fit of six fields, five angles", f"{1e3 * best_s(lambda: fit_letdown(coats, lab, 0.09), 20):.1f} ms"
    )
    line(
        "chances of coats, one zone", f"{1e3 * best_s(lambda: estimate_coats(fit, target, 0.09), 20):.1f} ms"
    )
    line("chances from looking, twelve words", f"{1e3 * best_s(lambda: rank_coats(judged, 6.0), 20):.1f} ms")
    line(
        f"map, {CELLS:,} cells, five angles",
        f"{1e3 * best_s(lambda: appearance_map(table, film_um, 10.0), 9):.1f} ms",
    )
    line("fit, four zones, map, summary", f"{1e3 * best_s(whole, 9):.1f} ms")
    dice = np.random.default_rng(4)
    colours = np.array([20.0, -40.0, -40.0]) + np.array([85.0, 80.0, 80.0]) * dice.random((CELLS, 3))
    line(f"screen colours, {CELLS:,}", f"{1e3 * best_s(lambda: preview(colours), 9):.1f} ms")


def main() -> None:
    """Measure and print."""
    line("", "ours", "colour-science")
    differences()
    counts()


if __name__ == "__main__":
    main()
