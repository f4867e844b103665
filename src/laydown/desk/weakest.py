"""What a plan is judged by at a glance: its weakest join and how long it takes."""

from laydown.schema.coat import Join
from laydown.schema.plan import Plan


def weakest_join(plan: Plan) -> Join | None:
    """Return the join of a plan that is least likely to be wet.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    The join; None for a plan without joins.
    """
    joins = [join for layer in plan.layers for coat in layer.coats for join in coat.joins]
    return min(joins, key=lambda join: (join.wet_chance, join.spare_s.value), default=None)


def minutes_of(plan: Plan) -> float:
    """Return how long the whole plan takes.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Minutes from its start to the end of its last step.
    """
    return max((step.end_s for step in plan.timeline), default=0.0) / 60.0
