"""The shelf: products of the shop and the shipped, invented ones."""

from typing import Any
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.deleting import delete_product
from laydown.desk.papers.product_form import EMPTY_LINES, answers_of_product, raw_product
from laydown.desk.papers.second_save import Draft, kept_paper
from laydown.desk.papers.sheets import products_of, read_product, save_product
from laydown.reader.encode import to_json
from laydown.reader.papers.shelf import shipped_folder
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product
from laydown.web.pages.second_save import save_or_ask
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import (
    MadeFrom,
    attachment,
    fields_of,
    made_from,
    now_text,
    product_before,
    said_made_from,
    without_made_from,
)
from laydown.web.request.render import page


def _list(call: Call) -> Response:
    """Show every product."""
    own = {kept.id for kept in call.state.book.products()}
    gone = call.query.get("gone", "")[:120]
    gone = "" if gone in own else gone
    return page(call, "shelf.html", products=products_of(call.state.book), own=own, gone=gone)


def _new(call: Call) -> Response:
    """Show an empty form, or one filled in from a product to copy."""
    copied = call.query.get("copy", "")
    product = next((one for one in products_of(call.state.book) if one.key == copied), None)
    answers = answers_of_product(product) if product is not None else {}
    if product is not None:
        answers |= {"key": f"{product.key}-own", "status": "sheet", "source": "", "before": product.key}
    return _form(call, answers, made=MadeFrom())


def _show(call: Call) -> Response:
    """Show a product: the shop's own can be changed."""
    product = _product(call)
    kept = kept_paper(call.state.book, "product", product.key)
    answers = answers_of_product(product) | {"before": product.key}
    return _form(call, answers, product=product, own=kept is not None, made=made_from(kept))


def _form(call: Call, answers: dict[str, str], status: int = 200, **more: Any) -> Response:
    """Show the form of a product."""
    filled = [number for number in range(1, 40) if answers.get(f"recipe[{number}].name")]
    lines = list(range(1, (max(filled) if filled else 0) + EMPTY_LINES + 1))
    values = {"product": None, "own": True} | more
    return page(call, "product.html", status, answers=answers, lines=lines, **values)


def _keep(call: Call) -> Response:
    """Keep a product."""
    answers = without_made_from(fields_of(call))
    name, made = answers.pop("before", ""), said_made_from(call)
    book = call.state.book
    begun = product_before(made) or next((one for one in products_of(book) if one.key == name), None)
    try:
        product = read_product(raw_product(answers, begun))
    except InputError as error:
        return _form(call, answers | {"before": name}, 422, made=made, problems=error.problems)
    place = f"/shelf/{quote(product.key)}"

    def keep(seen: int) -> str:
        # Under another key it is a new product beside the one that was opened.
        save_product(book, product, now_text(), seen if product.key == name else 0)
        return place

    return save_or_ask(call, Draft("product", product.key, to_json(product)), keep)


def _product(call: Call) -> Product:
    """Open the product of the address."""
    key = call.path["product"]
    found = next((one for one in products_of(call.state.book) if one.key == key), None)
    if found is None:
        raise HTTPException(404)
    return found


def _file(call: Call) -> Response:
    """Give the product as a file."""
    product = _product(call)
    return attachment(to_json(product), f"{product.key}.json", "application/json")


def _ask(call: Call) -> Response:
    """Ask once more before a product is deleted."""
    return _asking(call, ())


def _asking(call: Call, problems: tuple[Problem, ...]) -> Response:
    """Say what goes with a product, and what keeps it from going."""
    product = _product(call)
    kept = kept_paper(call.state.book, "product", product.key)
    if kept is None:
        raise HTTPException(404)
    return page(
        call,
        "paper_delete.html",
        422 if problems else 200,
        what="product",
        name=product.key,
        place=f"/shelf/{quote(product.key)}",
        file=f"/shelf/{quote(product.key)}/product.json",
        hides=(shipped_folder() / "shelf" / f"{product.key}.toml").is_file(),
        made=made_from(kept),
        problems=problems,
    )


def _delete(call: Call) -> Response:
    """Delete a product that no job uses."""
    try:
        delete_product(call.state.book, call.path["product"], said_made_from(call).version)
    except InputError as error:
        return _asking(call, error.problems)
    return RedirectResponse(f"/shelf?gone={quote(call.path['product'])}", 303)


DOORS = (
    Door("/shelf", _list, "reader"),
    Door("/shelf", _keep, "painter", "POST"),
    Door("/shelf/new", _new, "painter"),
    Door("/shelf/{product:path}/delete", _ask, "manager"),
    Door("/shelf/{product:path}/delete", _delete, "manager", "POST"),
    Door("/shelf/{product:path}/product.json", _file, "reader"),
    Door("/shelf/{product:path}", _show, "reader"),
)
"""Doors of this group."""
