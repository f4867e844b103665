"""The shelf: where products lie, beside the job file or among the invented ones that are shipped."""

from pathlib import Path

import laydown.data
from laydown.reader.files import read_table
from laydown.reader.papers.other_files import decode_product
from laydown.reader.values import nearest
from laydown.schema.job import Job
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product

LAYERS = ("ground", "effect", "clear")
"""The three layers, in the order of work."""


def shipped_folder() -> Path:
    """Return the folder of the data that ship with laydown."""
    return Path(laydown.data.__file__).parent


def find_product(name: str, beside: Path) -> Path | None:
    """Return the file of a product."""
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
    """Return the keys a job in this folder may name."""
    folders = (beside / "shelf", shipped_folder() / "shelf")
    return sorted({item.stem for folder in folders if folder.is_dir() for item in folder.glob("*.toml")})


def missing_product(layer: str, name: str, beside: Path) -> Problem:
    """Return the problem of a product that lies nowhere."""
    known = known_products(beside)
    near = nearest(name, known)
    if near:
        hint = message("did-you-mean-the-word", near=Name(near))
    else:
        hint = message("put-it-on-the-shelf", shelf=Name(beside / "shelf"), known=tuple(map(Name, known)))
    return Problem(f"products.{layer}", message("no-product-on-the-shelf", product=Name(name)), hint)


def read_named_product(layer: str, job: Job, path: Path) -> Product:
    """Read the product of one layer that a job names; the shelf lies beside the job."""
    name = getattr(job.products, layer)
    file = find_product(name, path.parent)
    if file is None:
        raise InputError(str(path), (missing_product(layer, name, path.parent),))
    try:
        product = decode_product(read_table(file), file)
    except InputError as error:
        placed = tuple(Problem(f"{name}: {item.where}", item.what, item.hint) for item in error.problems)
        raise InputError(str(path), placed) from None
    if product.kind != layer:
        hint = message("name-a-product-of-the-kind", kind=Name(layer))
        what = message("product-for-another-layer", product=Name(name), layer=product.kind)
        raise InputError(str(path), (Problem(f"products.{layer}", what, hint),))
    return product
