"""Products and sides of the book: the shop's own before the shipped ones."""

import json
from pathlib import Path
from typing import Any

from laydown.desk.papers.files import recipe_problems
from laydown.reader.decode import decode
from laydown.reader.encode import to_json
from laydown.reader.files import decode_file, read_table
from laydown.reader.papers.other_files import decode_product
from laydown.reader.papers.shelf import LAYERS, shipped_folder
from laydown.reader.values import nearest
from laydown.schema.job import Body, ProductNames
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product
from laydown.schema.side import Side
from laydown.store.book import Book
from laydown.store.kept import Kept
from laydown.trade.side.build import build_side, check_side


def products_of(book: Book) -> tuple[Product, ...]:
    """Return every product a job in this book may name.

    Parameters
    ----------
    book
        The book.

    Returns
    -------
    The shop's own and the shipped, invented ones, by key; an own product hides a shipped one with the same key.
    """
    return tuple(product for _, product in sorted(_products(book).items()))


def _products(book: Book) -> dict[str, Product]:
    """Products by key."""
    files = sorted((shipped_folder() / "shelf").glob("*.toml"))
    found = {file.stem: decode_product(read_table(file), file) for file in files}
    for kept in book.products():
        noun = decode(Product, json.loads(kept.text)).noun
        if noun is not None:
            found[kept.id] = noun
    return found


def named_products(book: Book, names: ProductNames) -> tuple[dict[str, Product], tuple[Problem, ...]]:
    """Find the three products of a job.

    Parameters
    ----------
    book
        The book.
    names
        As the job names them.

    Returns
    -------
    Product by layer as far as they were found, and everything that is wrong.
    """
    known = _products(book)
    found: dict[str, Product] = {}
    problems: list[Problem] = []
    for layer in LAYERS:
        name = getattr(names, layer)
        product = known.get(name)
        if product is None:
            near = nearest(name, sorted(known))
            hint = f"did you mean '{near}'?" if near else f"known here: {', '.join(sorted(known))}"
            problems.append(Problem(f"products.{layer}", f"no product '{name}' on the shelf", hint))
        elif product.kind != layer:
            hint = f"choose a product for the {layer} coat"
            what = f"'{name}' is a product for the {product.kind} coat"
            problems.append(Problem(f"products.{layer}", what, hint))
        else:
            found[layer] = product
            problems += recipe_problems(product, f"{product.key}: ")
    return found, tuple(problems)


def read_product(raw: dict[str, Any]) -> Product:
    """Read a product and check that its recipe can be poured.

    Parameters
    ----------
    raw
        As read from a form or a file.

    Returns
    -------
    The product.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    decoded = decode_file(Product, raw, Path("product"), "typed in")
    problems = list(decoded.problems)
    if decoded.noun is not None:
        problems += recipe_problems(decoded.noun)
    if decoded.noun is None or problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return decoded.noun


def save_product(book: Book, product: Product, at: str, seen: int) -> None:
    """Keep a product of the shop's own; the same again changes nothing.

    Parameters
    ----------
    book
        The book.
    product
        The product.
    at
        Now, as ISO 8601 text.
    seen
        Version that was read before; 0: there was none with this key.

    Raises
    ------
    ChangedError
        Another version stands in the book, or one where none was seen.
    """
    kept = Kept(product.key, product.key, product.format, at, to_json(product))
    if _text_of(book.products(), kept.id) != kept.text:
        book.put_product(kept, seen)


def _text_of(papers: tuple[Kept, ...], name: str) -> str:
    """Return what stands under a name; empty if nothing does."""
    return next((one.text for one in papers if one.id == name), "")


def side_for(book: Book, body: Body) -> Side:
    """Build the side of a job, or take it from the book.

    Parameters
    ----------
    book
        The book.
    body
        What the job says.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    if body.file is not None:
        return own_side(book, body.file)
    built = build_side(body.shape or "", body.measures)
    if isinstance(built, tuple):
        raise InputError("", built)
    return built


def own_side(book: Book, side_id: str) -> Side:
    """Return a side of the shop's own.

    Parameters
    ----------
    book
        The book.
    side_id
        Its id: the name of the side file a job names.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        There is none, or it cannot be read any more.
    """
    kept = next((one for one in book.sides() if one.id == side_id), None)
    if kept is None:
        known = ", ".join(one.id for one in book.sides()) or "none yet"
        problem = Problem(
            "body.file", f"no side '{side_id[:60]}' in the book", f"draw or import it first; known: {known}"
        )
        raise InputError("", (problem,))
    return decoded_side(json.loads(kept.text))


def decoded_side(raw: dict[str, Any]) -> Side:
    """Read a side and check that it can be painted.

    Parameters
    ----------
    raw
        As read from a file.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    decoded = decode_file(Side, raw, Path("side"), "side file")
    problems = decoded.problems if decoded.noun is None else check_side(decoded.noun)
    if decoded.noun is None or problems:
        raise InputError("", problems)
    return decoded.noun


def side_id_of(side: Side) -> str:
    """Return the id of a side of the shop's own.

    Parameters
    ----------
    side
        The side.

    Returns
    -------
    The name of its file; without a stem if its name has neither letter nor digit.
    """
    stem = "-".join("".join(sign if sign.isalnum() else " " for sign in side.name.casefold()).split())
    return f"{stem}.json"


def save_side(book: Book, side: Side, at: str, seen: int) -> str:
    """Keep a side of the shop's own; the same again changes nothing.

    Parameters
    ----------
    book
        The book.
    side
        The side.
    at
        Now, as ISO 8601 text.
    seen
        Version that was read before; 0: there was none with this name.

    Returns
    -------
    Its id, which is the name of its file too.

    Raises
    ------
    InputError
        It cannot be painted, or its name gives no file name.
    ChangedError
        Another version stands in the book, or one where none was seen.
    """
    problems = check_side(side)
    name = side_id_of(side)
    if name == ".json":
        problems = (*problems, Problem("name", "has no letter in it", "name the vehicle and the side"))
    if problems:
        raise InputError("", problems)
    kept = Kept(name, side.name, side.format, at, to_json(side))
    if _text_of(book.sides(), name) != kept.text:
        book.put_side(kept, seen)
    return name
