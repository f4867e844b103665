"""What a picture of a coat says in words: its head, and all of it for those who do not see it."""

from laydown.report.scene import Scene, coat_name, coat_parts
from laydown.report.style import JOIN_WORDS
from laydown.report.text_words import place_words
from laydown.schema.coat import Coat
from laydown.units import show


def title_of(scene: Scene) -> str:
    """Head of a picture.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Such as "Effect coat 1 of 3: closed pass and light pass".
    """
    name = f"{scene.layer.name.capitalize()} {coat_name(scene.coat)}"
    if scene.coat.part != "control":
        name += f" of {sum(coat.part != 'control' for coat in scene.layer.coats)}"
    return f"{name}: {coat_parts(scene.coat)}"


def amount_of(coat: Coat) -> str:
    """Time and paint of a coat.

    Parameters
    ----------
    coat
        The coat.

    Returns
    -------
    Such as "3 min 18 s, 542 g".
    """
    return f"{show(round(coat.elapsed_s), 'elapsed_s')}, {show(round(coat.sprayed_g), 'sprayed_g')}"


def describe(scene: Scene) -> str:
    """Say in words what the picture shows.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    One sentence for each section and each join.
    """
    plan = scene.plan
    parts = [f"{plan.side.shape}, {plan.side.side} side, start at {scene.coat.start}."]
    parts += [
        f"Section {section.order}: {', '.join(section.panels)}, {show(round(section.spray_s), 'spray_s')}, "
        f"{show(round(section.sprayed_g), 'sprayed_g')}."
        for section in scene.coat.sections
    ]
    parts += [
        f"Join {join.id} at {place_words(join.feature)}: {JOIN_WORDS[join.state]}, spare {round(join.spare_s.value)} s "
        f"({round(join.spare_s.low)} to {round(join.spare_s.high)})."
        for join in scene.coat.joins
    ]
    parts += [
        f"Fill {show(round(refill.fill_g), 'fill_g')} after section {refill.after_section}."
        for refill in scene.coat.refills
    ]
    return " ".join(parts)
