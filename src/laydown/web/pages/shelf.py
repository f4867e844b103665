"""The shelf: products of the shop and the shipped, invented ones."""

from typing import Any
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.book_sheets import products_of, save_product
from laydown.desk.sheet_form import EMPTY_LINES, answers_of_product, raw_product
from laydown.reader.encode import to_json
from laydown.schema.problem import InputError
from laydown.schema.product import Product
from laydown.web.door import Call, Door
from laydown.web.forms import attachment, fields_of, now_text
from laydown.web.render import page


def _list(call: Call) -> Response:
    """Show every product."""
    own = {kept.id for kept in call.state.book.products()}
    return page(call, "shelf.html", products=products_of(call.state.book), own=own)


def _new(call: Call) -> Response:
    """Show an empty form, or one filled in from a product to copy."""
    copied = call.query.get("copy", "")
    product = next((one for one in products_of(call.state.book) if one.key == copied), None)
    answers = answers_of_product(product) if product is not None else {}
    if product is not None:
        answers |= {"key": f"{product.key}-own", "status": "sheet", "source": "", "before": product.key}
    return _form(call, answers)


def _show(call: Call) -> Response:
    """Show a product: the shop's own can be changed."""
    product = _product(call)
    own = any(kept.id == product.key for kept in call.state.book.products())
    answers = answers_of_product(product) | {"before": product.key}
    return _form(call, answers, product=product, own=own)


def _form(call: Call, answers: dict[str, str], status: int = 200, **more: Any) -> Response:
    """Show the form of a product."""
    filled = [number for number in range(1, 40) if answers.get(f"recipe[{number}].name")]
    lines = list(range(1, (max(filled) if filled else 0) + EMPTY_LINES + 1))
    values = {"product": None, "own": True} | more
    return page(call, "product.html", status, answers=answers, lines=lines, **values)


def _keep(call: Call) -> Response:
    """Keep a product."""
    answers = fields_of(call)
    answers.pop("token", None)
    name = answers.pop("before", "")
    before = next((one for one in products_of(call.state.book) if one.key == name), None)
    try:
        product = save_product(call.state.book, raw_product(answers, before), now_text())
    except InputError as error:
        return _form(call, answers | {"before": name}, 422, problems=error.problems)
    return RedirectResponse(f"/shelf/{quote(product.key)}", 303)


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


DOORS = (
    Door("/shelf", _list, "reader"),
    Door("/shelf", _keep, "painter", "POST"),
    Door("/shelf/new", _new, "painter"),
    Door("/shelf/{product:path}/product.json", _file, "reader"),
    Door("/shelf/{product:path}", _show, "reader"),
)
"""Doors of this group."""
