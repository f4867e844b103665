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
from laydown.schema.message import Message, message

_WORDS: dict[FieldJudgement, Word] = {"few": "too_few", "match": "match", "many": "too_many"}

_REFUSED: dict[str, tuple[ColourWord, str]] = {
    "ground_wrong": ("ground_wrong", "ground-too-many"),
    "beyond_panel": ("beyond_panel", "fields-all-few"),
    "contradiction": ("no_fit", "fields-contradict"),
    "no_difference": ("no_fit", "fields-all-match"),
    "conflict": ("no_fit", "face-against-flop"),
}
"""Why the eye gives no number: the verdict and the code of the reason."""


def fields_of(sample: Sample) -> tuple[PanelField, ...]:
    """Return the fields that were judged by eye."""
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
    """Return what the eye says; None where nothing was judged."""
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
        verdict, code = _REFUSED[ranking.refusal or "conflict"]
        reason = message("reasons", reasons=(message(code), *_look_again(ranking)))
        return Judged(zone, verdict, None, None, reason=reason)
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
    """Return what instrument and eye say together."""
    if not read.counts or read.posterior is None:
        return read
    if not seen.counts or seen.posterior is None:
        return replace(read, verdict=seen.verdict, reason=message("by-eye", reason=seen.reason))
    posterior = combined(read.posterior, seen.posterior)
    if posterior is None:
        reason = message("eye-against-instrument", read=read.posterior.mean, seen=seen.posterior.mean)
        return replace(read, verdict="no_fit", reason=reason)
    halves = half_coats(posterior)
    verdict = read.verdict if read.verdict == "either" else weigh(halves, float("inf"))
    return replace(read, verdict=verdict, posterior=posterior, halves=halves)


def _look_again(ranking: Ranking) -> tuple[Message, ...]:
    """Which fields to look at once more."""
    pairs = tuple(
        message("two-fields", lower=one.lower, higher=one.higher, geometry=one.geometry)
        for one in ranking.look_again
    )
    return (message("look-again", pairs=pairs),) if pairs else ()


def _remarks(ranking: Ranking, sample: Sample) -> Message:
    """What makes a look rough."""
    remarks = [message("eye-half-a-coat")]
    if ranking.is_rough:
        remarks.append(message("eye-few-fields"))
    if not sample.face or not sample.flop:
        remarks.append(message("eye-one-way"))
    return message("reasons", reasons=(*remarks, *_look_again(ranking)))
