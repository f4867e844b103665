"""The shelf: where products lie, beside the job file or among the invented ones that are shipped."""

from pathlib import Path

import laydown.data
from laydown.reader.files import read_table
from laydown.reader.papers.other_files import decode_product
from laydown.reader.values import nearest
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product

LAYERS = ("ground", "effect", "clear")
"""The three layers, in the order of work."""


def shipped_folder() -> Path:
    """Return the folder of the data that ship with laydown.

    Returns
    -------
    A folder with ``shelf`` and ``jobs``; everything in it is invented.
    """
    return Path(laydown.data.__file__).parent


def find_product(name: str, beside: Path) -> Path | None:
    """Return the file of a product.

    Parameters
    ----------
    name
        Key on the shelf, or file name.
    beside
        Folder of the job file.

    Returns
    -------
    First of: the file itself, ``shelf/<name>.toml`` beside the job file, ``<name>.toml`` beside it, the
    shipped shelf; None if there is none.
    """
    file = f"{name}.toml"
    places = [beside / name] if Path(name).suffix.lower() in {".toml", ".json"} else []
    places += [beside / "shelf" / file, beside / file]
    if Path(name).name == name:
        places.append(shipped_folder() / "shelf" / file)
    try:
        return next((place for place in places if place.exists()), None)
    except (OSError, ValueError):
        return None


def known_products(beside: Path) -> list[str]:
    """Return the keys a job in this folder may name.

    Parameters
    ----------
    beside
        Folder of the job file.

    Returns
    -------
    Names, sorted.
    """
    folders = (beside / "shelf", shipped_folder() / "shelf")
    return sorted({item.stem for folder in folders if folder.is_dir() for item in folder.glob("*.toml")})


def missing_product(layer: str, name: str, beside: Path) -> Problem:
    """Return the problem of a product that lies nowhere.

    Parameters
    ----------
    layer
        Ground, effect or clear.
    name
        As written in the job.
    beside
        Folder of the job file.

    Returns
    -------
    Problem with the nearest name, or with all known ones.
    """
    known = known_products(beside)
    near = nearest(name, known)
    hint = (
        f"did you mean '{near}'?"
        if near
        else f"put it into {beside / 'shelf'}; known here: {', '.join(known)}"
    )
    return Problem(f"products.{layer}", f"no product '{name}' on the shelf", hint)


def read_products(job: Job, path: Path) -> tuple[dict[str, Product], tuple[Problem, ...]]:
    """Read the three products of a job.

    Parameters
    ----------
    job
        The job.
    path
        Its file; the shelf lies beside it.

    Returns
    -------
    Product by layer as far as they could be read, and everything that is wrong with any of the three; places
    begin with the name of the product.
    """
    products: dict[str, Product] = {}
    problems: list[Problem] = []
    for layer in LAYERS:
        name = getattr(job.products, layer)
        file = find_product(name, path.parent)
        if file is None:
            problems.append(missing_product(layer, name, path.parent))
            continue
        try:
            products[layer] = decode_product(read_table(file), file)
        except InputError as error:
            problems += [Problem(f"{name}: {item.where}", item.what, item.hint) for item in error.problems]
            continue
        kind = products[layer].kind
        if kind != layer:
            hint = f"name a product of the kind '{layer}'"
            problems.append(Problem(f"products.{layer}", f"'{name}' is a product for the {kind} coat", hint))
    return products, tuple(dict.fromkeys(problems))
