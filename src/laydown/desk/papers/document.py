"""The plan document: sentences by code and figures, and beside them in metric English for whoever reads the file."""

from laydown.reader.encode import to_json
from laydown.schema.plan import Plan
from laydown.words.show import Words


def plan_json(plan: Plan) -> str:
    """Return a plan as the text of its document."""
    return to_json(plan, Words())
