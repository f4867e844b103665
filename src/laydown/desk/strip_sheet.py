"""The leaf for the let-down panel of a job."""

from pathlib import Path

from laydown.reader.job_file import read_job
from laydown.reader.write import write_file
from laydown.report.panel_sheet import MOST_FIELDS, PanelSheet, panel_sheet_pdf
from laydown.schema.figure import Figure
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.units import System, show

USUAL_NAME = "-panel.pdf"
"""End of the name of the leaf beside its job."""


def usual_path(job: Path) -> Path:
    """Name the leaf of a job.

    Parameters
    ----------
    job
        The job file.

    Returns
    -------
    A PDF beside it.
    """
    return job.with_name(f"{job.stem}{USUAL_NAME}")


def write_sheet(path: Path, output: Path, coats: tuple[float, ...], system: System) -> None:
    """Write the leaf for the panel of a job.

    Parameters
    ----------
    path
        The job file.
    output
        The PDF to write.
    coats
        Coats of each field.
    system
        Units of the leaf.

    Raises
    ------
    InputError
        The job is faulty, or the PDF cannot be written.
    """
    if not 1 <= len(coats) <= MOST_FIELDS:
        what = f"names {len(coats)} fields"
        raise InputError(str(path), (Problem("--fields", what, f"a leaf has room for {MOST_FIELDS}"),))
    if output.suffix.lower() != ".pdf":
        raise InputError(str(output), (Problem("file", "is not named as a PDF", f"write {output.stem}.pdf"),))
    write_file(output, panel_sheet_pdf(sheet_of(read_job(path), path.name, coats, system)))


def sheet_of(job: Job, file: str, coats: tuple[float, ...], system: System) -> PanelSheet:
    """Put a job on the leaf.

    Parameters
    ----------
    job
        The job.
    file
        Name of its file.
    coats
        Coats of each field.
    system
        Units of the leaf.

    Returns
    -------
    What the leaf is printed from.
    """
    air = (
        f"booth {show(job.air.temperature_c.value, 'temperature_c', system)}, "
        f"{show(job.air.rh.value, 'rh', system)}"
    )
    gun = job.gun
    rows: tuple[tuple[str, str, Figure | float | None], ...] = (
        ("flow", "flow_g_s", gun.flow_g_s),
        ("speed", "speed_m_s", gun.speed_m_s),
        ("overlap", "overlap", gun.overlap),
        ("fan", "fan_m", gun.fan_m),
        ("distance", "distance_m", gun.distance_m),
        ("air cap", "pressure_bar", gun.pressure_bar),
        ("nozzle", "nozzle_mm", gun.nozzle_mm),
    )
    settings = tuple((head, _said(value, name, system)) for head, name, value in rows)
    hand = f"{job.body.shape or job.body.file or ''} {job.job.side.upper()}"
    return PanelSheet(
        job.job.name, hand.strip(), job.painter.name or "", air, file, coats, settings, job.invented, system
    )


def _said(value: Figure | float | None, name: str, system: System) -> str:
    """Write a figure of the job; a dash where it gives none."""
    if value is None:
        return "-"
    return show(value.value if isinstance(value, Figure) else value, name, system)
