"""Where sections may meet: features of the side and, every 20 cm, open panel."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from laydown.physics.values import Floats
from laydown.planning.setup.field import Field
from laydown.planning.setup.weights import CLEAR_OF_FEATURE_M, OPEN_STEP_M
from laydown.schema.coat import FeatureKind
from laydown.schema.side import Side
from laydown.trade.side.features import BAN_COST, PLACE_COSTS, Ban, Feature, bans, features, side_cuts


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """One place where sections may meet."""

    id: str
    label: str
    kind: FeatureKind
    x_m: float
    x_bottom_m: float
    x_top_m: float
    cost: float
    line: Floats

    def x_at(self, s_m: Floats) -> Floats:
        """Return where the place lies at heights on the skin [m]; straight between its points."""
        return np.asarray(np.interp(s_m, self.line[:, 0], self.line[:, 1]), float)


def _of_feature(feature: Feature, side: Side) -> Place:
    """A feature as a place, its points by height; an arch foot stands upright."""
    drawn = next((cut.points for cut in side_cuts(side) if cut.id == feature.id), None)
    points = np.asarray(drawn if drawn is not None else [(feature.x_m, 0.0)], np.float64)
    points = points[np.argsort(points[:, 1], kind="stable")]
    line = np.column_stack([points[:, 1] * side.girth, points[:, 0]])
    return Place(
        feature.id,
        feature.label,
        feature.kind,
        feature.x_m,
        feature.x_bottom_m,
        feature.x_top_m,
        PLACE_COSTS[feature.kind],
        line,
    )


def _open(x_m: float, side: Side, field: Field, banned: Sequence[Ban]) -> Place:
    """A place on open panel; dearer where painters do not join."""
    column = int((x_m - field.skin.x0_m) / field.skin.cell_m)
    found = field.panel[:, column][field.mask[:, column]]
    found = found[found >= 0]
    label = side.panels[int(np.bincount(found).argmax())].label if found.size else "open panel"
    hits = sum(1 for ban in banned if ban.axis == "x" and ban.low_m <= x_m <= ban.high_m)
    cost = PLACE_COSTS["open"] + BAN_COST * hits
    return Place(f"open.{x_m:.2f}", f"{label}, open", "open", x_m, x_m, x_m, cost, np.array([[0.0, x_m]]))


@dataclass(frozen=True, slots=True)
class Marks:
    """Features and zones without joins of a side, found once for all layers."""

    features: tuple[Place, ...]
    bans: tuple[Ban, ...]


def marks_of(side: Side) -> Marks:
    """Return the features of a side as places."""
    upright = (feature for feature in features(side) if feature.s_m is None)
    return Marks(tuple(_of_feature(feature, side) for feature in upright), tuple(bans(side)))


def places(side: Side, field: Field, marks: Marks) -> tuple[Place, ...]:
    """Return every place where sections of a layer may meet, front first.

    Source: Order of features: common practice, no source.
    """
    begin, end = field.x_from_m(), field.x_to_m()
    inside = [
        place for place in marks.features if begin + CLEAR_OF_FEATURE_M < place.x_m < end - CLEAR_OF_FEATURE_M
    ]
    free = [
        float(x)
        for x in np.round(np.arange(begin + OPEN_STEP_M, end - OPEN_STEP_M / 2.0, OPEN_STEP_M), 2)
        if all(abs(x - place.x_m) > CLEAR_OF_FEATURE_M for place in inside)
        and field.mask[:, int((x - field.skin.x0_m) / field.skin.cell_m)].any()
    ]
    found = inside + [_open(x, side, field, marks.bans) for x in free]
    return tuple(sorted(found, key=lambda place: (place.x_m, place.cost)))
