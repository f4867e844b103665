"""Figures of an invented job for tests of the ways out; round numbers so that they are worked by hand."""

from laydown.reader.papers.tables import STAGES, read_rescue
from laydown.schema.figure import Spread
from laydown.schema.rescue import LayerFigures, RescueContext
from laydown.trade.rescue import ways_out

TABLE = read_rescue()

GROUND = LayerFigures(2.5, 160.0, 320.0, Spread(300.0, 200.0, 450.0))
EFFECT = LayerFigures(2.0, 120.0, 240.0, Spread(240.0, 160.0, 360.0))
CLEAR = LayerFigures(2.0, 160.0, 420.0, Spread(420.0, 300.0, 600.0))
JOB = RescueContext(GROUND, EFFECT, CLEAR, 0.25, 900.0, 3600.0, ground_hardened=True)

CELLS = [(defect, stage) for defect in TABLE.defects for stage in STAGES]


def ways(defect, stage, context=JOB):
    return ways_out(defect, stage, context, TABLE)


def keys(defect, stage, context=JOB, soundness=None):
    return [one.key for one in ways(defect, stage, context) if soundness in {None, one.soundness}]


def way(defect, stage, key, context=JOB):
    return next(one for one in ways(defect, stage, context) if one.key == key)
