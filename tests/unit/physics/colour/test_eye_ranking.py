"""What a painter says of the fields, and when no number is made of it."""

import numpy as np
import pytest

from laydown.physics.colour.eye_ranking import Judgement, rank_coats

WORD = {"L": "too_few", "M": "match", "D": "too_many"}


def said(**series):
    """Judgements from letters per field, from field 0; a dot was not judged."""
    return [
        Judgement(float(field), geometry, WORD[letter])
        for geometry, letters in series.items()
        for field, letter in enumerate(letters)
        if letter != "."
    ]


def mean_of(**series):
    """Mean of a series that is not refused."""
    found = rank_coats(said(**series), 6.0)
    assert found.refusal is None
    return found.posterior.mean


@pytest.mark.parametrize(
    ("letters", "mean"), [("LLMDDD", 2.0), ("LLLDDD", 2.5), ("LLMMDD", 2.5), ("LMDDDD", 1.0)]
)
def test_symmetric_series_lie_in_their_middle(letters, mean):
    assert mean_of(face=letters, flop=letters) == pytest.approx(mean, abs=0.02)


def test_two_ways_of_looking_are_surer_than_one_and_one_field_is_rough():
    both = rank_coats(said(face="LLMDDD", flop="LLMDDD"), 6.0).posterior
    face = rank_coats(said(face="LLMDDD"), 6.0).posterior
    single = rank_coats(said(face="..M"), 6.0)
    assert both.sd < face.sd < single.posterior.sd
    assert single.is_rough
    # Half a coat to eight tenths is as good as eyes get; assumption of the model, said to the painter.
    assert 0.25 < both.sd < 0.45
    assert 0.6 < single.posterior.sd < 1.0


@pytest.mark.parametrize(
    ("series", "refusal"),
    [
        ({"face": "DDDDDD", "flop": "DDDDDD"}, "ground_wrong"),
        ({"face": "LLMDDD", "flop": "DLMDDD"}, "ground_wrong"),
        ({"face": ".DDDDD", "flop": ".DDDDD"}, "ground_wrong"),
        ({"face": "LLLLLL", "flop": "LLLLLL"}, "beyond_panel"),
        ({"face": "MMMMMM", "flop": "MMMMMM"}, "no_difference"),
        ({"face": "LLMDDD", "flop": "LLLLMD"}, "conflict"),
        ({"face": "LDLMLD", "flop": "LLMDDD"}, "contradiction"),
    ],
)
def test_some_series_give_a_reason_and_no_number(series, refusal):
    found = rank_coats(said(**series), 6.0)
    assert found.refusal == refusal
    assert found.posterior is None


def test_one_slip_is_borne_and_named():
    found = rank_coats(said(face="LDLMDD", flop="LLLMDD"), 6.0)
    assert found.refusal is None
    assert [(one.geometry, one.lower, one.higher) for one in found.look_again] == [("face", 1.0, 2.0)]
    assert abs(found.posterior.mean - 3.0) < 0.5


def test_painters_made_by_the_model_are_found_again():
    dice = np.random.default_rng(5)
    covered, off = [], []
    for _ in range(120):
        true = dice.uniform(1.0, 4.0)
        judged = []
        for geometry in ("face", "flop"):
            seen = np.arange(6.0) - true - 0.35 * dice.standard_normal() + 0.4 * dice.standard_normal(6)
            letters = "".join("L" if u < -0.4 else "D" if u > 0.4 else "M" for u in seen)
            judged += said(**{geometry: letters})
        found = rank_coats(judged, 6.0)
        if found.posterior is not None:
            covered.append(found.posterior.low <= true <= found.posterior.high)
            off.append(abs(found.posterior.mean - true))
    assert len(covered) > 90
    assert np.mean(covered) >= 0.85
    assert np.median(off) < 0.4


def test_nothing_judged_and_fields_beyond_are_refused():
    with pytest.raises(ValueError, match="at least one"):
        rank_coats([], 6.0)
    with pytest.raises(ValueError, match="within 0 to 6"):
        rank_coats([Judgement(7.0, "face", "match")], 6.0)
