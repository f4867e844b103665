"""What the eye says of the fields, and what eye and instrument say together."""

from dataclasses import replace

from laydown.physics.colour.coat_count import FILM_SCATTER
from laydown.physics.colour.count_chances import combined, half_coats, spread_by_film
from laydown.physics.colour.eye_ranking import Judgement, Ranking, Word, rank_coats
from laydown.physics.colour.letdown import BEYOND, MOST_COATS
from laydown.planning.counts.ground_check import GroundRecord
from laydown.planning.counts.zone_verdict import Judged, ground_verdict, weigh
from laydown.schema.choices import FieldJudgement, Sample
from laydown.schema.colour import ColourWord, PanelField

_WORDS: dict[FieldJudgement, Word] = {"few": "too_few", "match": "match", "many": "too_many"}

_REFUSED: dict[str, tuple[ColourWord, str]] = {
    "ground_wrong": ("ground_wrong", "the bare ground coat already looks as if it had too many effect coats"),
    "beyond_panel": ("beyond_panel", "every field has too few coats"),
    "contradiction": (
        "no_fit",
        "fields contradict each other: a lower one has too many, a higher one too few",
    ),
    "no_difference": ("no_fit", "every field matches: nothing was told apart"),
    "conflict": ("no_fit", "face and flop ask for different numbers of coats"),
}


def fields_of(sample: Sample) -> tuple[PanelField, ...]:
    """Return the fields that were judged by eye.

    Parameters
    ----------
    sample
        What the job says of the panel.

    Returns
    -------
    Fields in the order of coats; none where nothing was judged.

    Sources
    -------
    Definition.
    """
    count = max(len(sample.face), len(sample.flop))
    coats = sample.coats or tuple(float(number) for number in range(count))
    found = [
        PanelField(
            coats[index],
            sample.face[index] if index < len(sample.face) else None,
            sample.flop[index] if index < len(sample.flop) else None,
        )
        for index in range(min(count, len(coats)))
    ]
    return tuple(sorted(found, key=lambda field: field.coats))


def judge_by_eye(zone: str, sample: Sample, ground: GroundRecord) -> Judged | None:
    """Return what the eye says; None where nothing was judged.

    Parameters
    ----------
    zone
        Name of the zone.
    sample
        What the job says of the panel.
    ground
        What is known of the ground coat.

    Returns
    -------
    A verdict; a number from the eye alone is right to half a coat or so, and says so.

    Sources
    -------
    ``laydown.physics.colour.eye_ranking``.
    """
    fields = fields_of(sample)
    if not fields:
        return None
    blocked = ground_verdict(zone, ground)
    if blocked is not None:
        return blocked
    said = [
        Judgement(field.coats, geometry, _WORDS[word])
        for field in fields
        for geometry, word in (("face", field.face), ("flop", field.flop))
        if word is not None
    ]
    last = min(fields[-1].coats + BEYOND, MOST_COATS)
    ranking = rank_coats(said, last)
    if ranking.refusal is not None or ranking.posterior is None:
        verdict, reason = _REFUSED[ranking.refusal or "conflict"]
        return Judged(zone, verdict, None, None, reason=f"{reason}{_look_again(ranking)}")
    posterior = ranking.posterior
    extra = ground.doubt.film_scatter**2 - FILM_SCATTER**2
    if extra > 0.0:
        posterior = spread_by_film(posterior, extra**0.5, ground.doubt.strips)
    halves = half_coats(posterior)
    verdict = weigh(halves, float("inf"))
    if ground.state == "provisional":
        verdict = "undecided"
    if posterior.mode >= last - 0.1:
        verdict = "beyond_panel"
    return Judged(zone, verdict, posterior, halves, reason=_remarks(ranking, sample))


def both(read: Judged, seen: Judged) -> Judged:
    """Return what instrument and eye say together.

    Parameters
    ----------
    read, seen
        The same zone by instrument and by eye.

    Returns
    -------
    Chances multiplied where they agree. Where they contradict each other no number is given; where one refuses, its
    verdict stands.

    Sources
    -------
    ``combined``.
    """
    if not read.counts or read.posterior is None:
        return read
    if not seen.counts or seen.posterior is None:
        return replace(read, verdict=seen.verdict, reason=f"by eye: {seen.reason}")
    posterior = combined(read.posterior, seen.posterior)
    if posterior is None:
        reason = (
            f"instrument and eye contradict each other: {read.posterior.mean:.1f} coats read, "
            f"{seen.posterior.mean:.1f} seen"
        )
        return replace(read, verdict="no_fit", reason=reason)
    halves = half_coats(posterior)
    verdict = read.verdict if read.verdict == "either" else weigh(halves, float("inf"))
    return replace(read, verdict=verdict, posterior=posterior, halves=halves)


def _look_again(ranking: Ranking) -> str:
    """Which fields to look at once more."""
    if not ranking.look_again:
        return ""
    pairs = ", ".join(f"{one.lower:g} and {one.higher:g} at {one.geometry}" for one in ranking.look_again)
    return f"; look again at fields {pairs}"


def _remarks(ranking: Ranking, sample: Sample) -> str:
    """What makes a look rough."""
    remarks = ["by eye, right to about half a coat"]
    if ranking.is_rough:
        remarks.append("fewer than three fields were judged")
    if not sample.face or not sample.flop:
        remarks.append("only one way of looking: judge face and flop")
    return "; ".join(remarks) + _look_again(ranking)
