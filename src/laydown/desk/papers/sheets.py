"""Products and sides of the book: the shop's own before the shipped ones."""

import json
from pathlib import Path
from typing import Any

from laydown.desk.papers.files import product_problems
from laydown.reader.decode import decode
from laydown.reader.encode import to_json
from laydown.reader.files import decode_file, read_table
from laydown.reader.papers.other_files import decode_product
from laydown.reader.papers.shelf import LAYERS, shipped_folder
from laydown.reader.values import nearest
from laydown.schema.job import Body, ProductNames
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product
from laydown.schema.side import Side
from laydown.store.book import Book
from laydown.store.kept import Kept
from laydown.trade.side.build import build_side, check_side


def products_of(book: Book) -> tuple[Product, ...]:
    """Return every product a job in this book may name."""
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


def named_products(book: Book, names: ProductNames) -> dict[str, Product]:
    """Find the three products of a job."""
    known = _products(book)
    found: dict[str, Product] = {}
    problems: list[Problem] = []
    for layer in LAYERS:
        name = getattr(names, layer)
        product = known.get(name)
        if product is None:
            near = nearest(name, sorted(known))
            keys = tuple(Name(key) for key in sorted(known))
            hint = message("shelf-lacks.near", near=Name(near))
            if not near:
                hint = message("shelf-lacks.hint", known=keys)
            problems.append(Problem(f"products.{layer}", message("shelf-lacks", product=Name(name)), hint))
        elif product.kind != layer:
            hint = message("product-of-other-layer.hint", layer=layer)
            what = message("product-of-other-layer", product=Name(name), layer=product.kind)
            problems.append(Problem(f"products.{layer}", what, hint))
        else:
            found[layer] = product
            problems += product_problems(product, f"{product.key}: ")
    if problems:
        raise InputError("", tuple(problems))
    return found


def read_product(raw: dict[str, Any]) -> Product:
    """Read a product and check that its recipe can be poured."""
    decoded = decode_file(Product, raw, Path("product"), "typed in")
    problems = list(decoded.problems)
    if decoded.noun is not None:
        problems += product_problems(decoded.noun)
    if decoded.noun is None or problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return decoded.noun


def save_product(book: Book, product: Product, at: str, seen: int) -> None:
    """Keep a product of the shop's own; the same again changes nothing."""
    kept = Kept(product.key, product.key, product.format, at, to_json(product))
    if _text_of(book.products(), kept.id) != kept.text:
        book.put_product(kept, seen)


def _text_of(papers: tuple[Kept, ...], name: str) -> str:
    """Return what stands under a name; empty if nothing does."""
    return next((one.text for one in papers if one.id == name), "")


def side_for(book: Book, body: Body) -> Side:
    """Build the side of a job, or take it from the book."""
    if body.file is not None:
        return own_side(book, body.file)
    return build_side(body.shape or "", body.measures)


def own_side(book: Book, side_id: str) -> Side:
    """Return a side of the shop's own."""
    kept = next((one for one in book.sides() if one.id == side_id), None)
    if kept is None:
        known = tuple(Name(one.id) for one in book.sides())
        hint = message("book-lacks-side.hint", known=known) if known else message("book-lacks-side.none")
        what = message("book-lacks-side", side=Name(side_id[:60]))
        raise InputError("", (Problem("body.file", what, hint),))
    return decoded_side(json.loads(kept.text))


def decoded_side(raw: dict[str, Any]) -> Side:
    """Read a side and check that it can be painted."""
    decoded = decode_file(Side, raw, Path("side"), "side file")
    problems = decoded.problems if decoded.noun is None else check_side(decoded.noun)
    if decoded.noun is None or problems:
        raise InputError("", problems)
    return decoded.noun


def side_id_of(side: Side) -> str:
    """Return the id of a side of the shop's own."""
    stem = "-".join("".join(sign if sign.isalnum() else " " for sign in side.name.casefold()).split())
    return f"{stem}.json"


def save_side(book: Book, side: Side, at: str, seen: int) -> str:
    """Keep a side of the shop's own; the same again changes nothing."""
    problems = check_side(side)
    name = side_id_of(side)
    if name == ".json":
        problems = (*problems, Problem("name", message("no-letter"), message("no-letter.hint")))
    if problems:
        raise InputError("", problems)
    kept = Kept(name, side.name, side.format, at, to_json(side))
    if _text_of(book.sides(), name) != kept.text:
        book.put_side(kept, seen)
    return name
