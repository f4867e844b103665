"""From raw tables to nouns: one pydantic model for each dataclass, made at first use, every problem at once."""

from collections.abc import Callable
from dataclasses import MISSING, dataclass, fields, is_dataclass
from typing import Annotated, Any, Generic, Literal, Optional, TypeVar, get_args, get_origin

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    PlainValidator,
    ValidationError,
    ValidationInfo,
    WithJsonSchema,
    create_model,
)
from pydantic_core import PydanticCustomError

from laydown.reader import values as leaf
from laydown.reader.faults import order, problems_of
from laydown.reader.sentence import DESCRIBED, read_sentence
from laydown.reader.structure import field_types, unwrap
from laydown.reader.values import figure
from laydown.schema.figure import Figure, TextLength, Within
from laydown.schema.message import Message, Saying, message
from laydown.schema.problem import Problem
from laydown.units import suffix

Noun = TypeVar("Noun")

_CONFIG = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)
_MODELS: dict[type, type[BaseModel]] = {}
_NOUNS: dict[type[BaseModel], type] = {}


@dataclass(frozen=True, slots=True)
class Decoded(Generic[Noun]):
    """What was read."""

    noun: Noun | None
    parts: dict[str, Any]
    problems: tuple[Problem, ...]


def decode(noun: type[Noun], raw: object, source: str = "not given") -> Decoded[Noun]:
    """Turn a raw table into a noun."""
    context = {"source": source}
    try:
        model = model_of(noun).model_validate(raw, context=context)
    except ValidationError as error:
        problems = order(problems_of(error, noun), raw)
        parts = _sound_parts(noun, raw, error, context) if isinstance(raw, dict) else {}
        return Decoded(None, parts, problems)
    whole = _noun(model)
    return Decoded(whole, {item.name: getattr(whole, item.name) for item in fields(whole)}, ())


def _sound_parts(
    noun: type, raw: dict[str, Any], error: ValidationError, context: dict[str, str]
) -> dict[str, Any]:
    """Read the top-level fields that have no fault of their own."""
    bad = {item["loc"][0] for item in error.errors(include_url=False, include_context=False) if item["loc"]}
    good = {name: kind for name, kind in field_types(noun).items() if name in raw and name not in bad}
    shapes: dict[str, Any] = {name: (_shape(kind, name), ...) for name, kind in good.items()}
    model: type[BaseModel] = create_model("Parts", __config__=_CONFIG, **shapes)
    found = model.model_validate({name: raw[name] for name in good}, context=context)
    return {name: _noun(getattr(found, name)) for name in good}


def model_of(noun: type) -> type[BaseModel]:
    """Return the pydantic model of a noun, made at first use."""
    if noun not in _MODELS:
        _MODELS[noun] = _make_model(noun)
    return _MODELS[noun]


def _make_model(noun: type) -> type[BaseModel]:
    """Make the model of a noun and of every noun inside it."""
    required = {
        item.name for item in fields(noun) if item.default is MISSING and item.default_factory is MISSING
    }
    shapes: dict[str, Any] = {}
    for name, annotation in field_types(noun).items():
        shapes[name] = (_shape(annotation, name), Field(default=... if name in required else None))
    model: type[BaseModel] = create_model(noun.__name__, __config__=_CONFIG, **shapes)
    _NOUNS[model] = noun
    return model


def _noun(value: Any) -> Any:
    """Build nouns from validated models; what was left out keeps the noun's default."""
    if isinstance(value, BaseModel):
        given = {name: _noun(getattr(value, name)) for name in value.model_fields_set}
        return _NOUNS[type(value)](**given)
    if isinstance(value, tuple):
        return tuple(_noun(item) for item in value)
    return value


def _shape(annotation: Any, name: str) -> Any:
    """Return the pydantic type of one field."""
    kind = unwrap(annotation)
    if isinstance(kind.type, type) and is_dataclass(kind.type) and kind.type not in {Figure, Message}:
        shape: Any = model_of(kind.type)
    elif get_origin(kind.type) is tuple:
        shape = _tuple(get_args(kind.type), name)
    else:
        read, described = _leaf(kind.type, name, kind.bound)
        shape = Annotated[Any, PlainValidator(read), WithJsonSchema(described)]
    return Optional[shape] if kind.optional else shape  # noqa: UP045 - the shape is made at run time


def _tuple(members: tuple[Any, ...], name: str) -> Any:
    """Return the type of a list of any length, or of a fixed number of values."""
    if len(members) == 2 and members[1] is Ellipsis:
        return tuple[_shape(members[0], name), ...]  # type: ignore[misc]
    return tuple[tuple(_shape(member, name) for member in members)]  # type: ignore[misc]


def _leaf(
    kind: Any, name: str, bound: Within | TextLength | None
) -> tuple[Callable[..., Any], dict[str, Any]]:
    """Return how a single value is read and how JSON Schema describes it."""
    within = bound if isinstance(bound, Within) else None
    words = bound if isinstance(bound, TextLength) else None
    if get_origin(kind) is Literal:
        return leaf.word(get_args(kind)), {"enum": list(get_args(kind))}
    if get_origin(kind) is dict:
        member = get_args(kind)[1]
        return _table(member), {"type": "object", "additionalProperties": _described(unwrap(member).type, "")}
    if kind is Message:
        return read_sentence, DESCRIBED
    if kind == Saying:
        return _sentence, {"anyOf": [{"type": "string"}, DESCRIBED]}
    plain: dict[Any, tuple[Callable[..., Any], dict[str, Any]]] = {
        Figure: (figure(name, within), _described(Figure, name, within)),
        float: (leaf.number(name, within), _described(float, name, within)),
        int: (leaf.integer(name, within), {"type": "integer", **_limits(within)}),
        bool: (leaf.yes_no, {"type": "boolean"}),
        str: (
            leaf.text(words),
            {"type": "string", "maxLength": words.longest if words else leaf.LONGEST_TEXT},
        ),
    }
    return plain.get(kind) or (
        _number_or_text(name),
        {"anyOf": [{"type": ["number", "string"]}, DESCRIBED]},
    )


def _sentence(value: object) -> Saying:
    return leaf.text(None)(value) if isinstance(value, str) else read_sentence(value)


def _number_or_text(name: str) -> Callable[[object], float | str | Message]:
    def read(value: object) -> float | str | Message:
        if isinstance(value, str | dict):
            return _sentence(value)
        return leaf.number(name, None)(value)

    return read


def _table(member: Any) -> Callable[[object, ValidationInfo], dict[str, Any]]:
    """Return a reader of a table whose keys state the units of its numbers."""

    def read(value: object, info: ValidationInfo) -> dict[str, Any]:
        if not isinstance(value, dict):
            what = message("where-a-table-belongs", given=leaf.shown(value))
            raise leaf.faulty(("", what, message("write-a-table")))
        found: dict[str, Any] = {}
        faults: list[leaf.ValueProblem] = []
        for key, raw in value.items():
            try:
                name = leaf.text(TextLength(60))(key)
                found[name] = (
                    figure(name, None)(raw, info)
                    if unwrap(member).type is Figure
                    else leaf.number(name, None)(raw)
                )
            except PydanticCustomError as error:
                shown = key if isinstance(key, str) and key.isprintable() else leaf.short(key)
                faults += [
                    (f".{shown[:60]}{below}", what, hint)
                    for below, what, hint in (error.context or {})["faults"]
                ]
        if faults:
            raise leaf.faulty(*faults)
        return found

    return read


def _limits(within: Within | None) -> dict[str, Any]:
    return {} if within is None else {"minimum": within.low, "maximum": within.high}


def _described(kind: Any, name: str, within: Within | None = None) -> dict[str, Any]:
    """Describe a number, or a figure, as JSON Schema."""
    bare: dict[str, Any] = {"type": "number", **_limits(within)}
    forms: list[dict[str, Any]] = [bare]
    if suffix(name):
        forms.append({"type": "string", "description": "number and unit"})
    if kind is Figure:
        end = [*forms[:], {"type": "null"}]
        keys = {
            "value": {"anyOf": forms[:]},
            "low": {"anyOf": end},
            "high": {"anyOf": end},
            "source": {"type": "string"},
        }
        forms.append(
            {"type": "object", "properties": keys, "required": ["value"], "additionalProperties": False}
        )
    return {"anyOf": forms} if len(forms) > 1 else bare
