"""Plans a three-stage waterborne refinish on a whole car or van side."""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from laydown.interface import EXAMPLE, Comparison, picture, pictures, plan, read_job, text, what_if, write
    from laydown.schema.job import Job
    from laydown.schema.plan import Plan
    from laydown.schema.problem import InputError, Problem

_NOUNS = {
    "InputError": "laydown.schema.problem",
    "Job": "laydown.schema.job",
    "Plan": "laydown.schema.plan",
    "Problem": "laydown.schema.problem",
}

__all__ = [
    "EXAMPLE",
    "Comparison",
    "InputError",
    "Job",
    "Plan",
    "Problem",
    "picture",
    "pictures",
    "plan",
    "read_job",
    "text",
    "what_if",
    "write",
]

if not TYPE_CHECKING:  # A type checker knows every name above, and refuses others.

    def __getattr__(name: str) -> Any:
        """Load a public name when it is first asked for, so that importing laydown costs nothing."""
        if name not in __all__:
            raise AttributeError(f"module 'laydown' has no attribute {name!r}")
        found = getattr(import_module(_NOUNS.get(name, "laydown.interface")), name)
        globals()[name] = found
        return found

    def __dir__() -> list[str]:
        return sorted([*globals(), *__all__])
