"""What a region calls things, and that no limit is shown before somebody confirmed it."""

from cases.speech import english
from laydown.reader.papers.tables import read_voc_limits
from laydown.trade.regions import breathing


def test_no_shipped_limit_is_confirmed():
    assert len(read_voc_limits()) > 30
    assert all(row.confirmed_on is None for row in read_voc_limits())


def test_breathing_protection_is_named_as_the_region_names_it():
    assert "EN 14594" in english(breathing("eu"))
    assert "supplied-air" in english(breathing("us-ca"))
    assert "EN" not in english(breathing("none"))
