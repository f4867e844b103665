"""Pages in a made-up language: whatever a person reads stands in the catalogue, or is a name, a file's own word or a unit."""

import pytest

from cases.desk import NEW, Desk
from cases.made_up import LANGUAGE, bare, speak, visible, words_left

DAMAGE = "body=medium%20hatch&job.side=left&work.front_door=repaired"
UNITS = {"min", "bar", "psi", "mil", "hPa"}
NAMES = {"laydown", "ground-a", "effect-a", "clear-a"}
COLUMNS = {"panel", "role", "coats", "zone", "reading", "angle", "deg"}
"""Words of a file of readings, which are the same in every language."""

SIDES = {"small", "medium", "large", "hatch", "saloon", "van"}
"""Names of the shipped sides, which a job file holds."""

PANELS = {"front", "rear", "door", "wing", "quarter", "sill"}
"""Words of the labels of shipped panels, which a job file holds too."""

FILES = {
    "invented",
    "sheet",
    "edition",
    "base",
    "standard",
    "reducer",
    "hardener",
    "for",
    "ground",
    "effect",
    "clear",
    "coat",
}
"""What invented sheets say of their source and of their tins."""

SOURCES = {"job", "file", "default", "not", "measured", "atmosphere"}
"""Words of sources, which are quoted as they were given."""

WITHOUT_A_PLAN = (
    "/login",
    "/jobs",
    "/jobs?q=nobody",
    "/jobs/away",
    "/shelf/new",
    "/settings",
    "/shelf",
    "/sides",
    "/sides/measure?shape=medium%20hatch",
    "/new",
    f"/new/today?{DAMAGE}",
    f"/new/damage?{DAMAGE}",
)
WITH_A_PLAN = (
    "{plan}",
    "{plan}/mix",
    "{plan}/mix/ground",
    "{guide}",
    "{guide}/fix",
    "{job}/edit",
    "{job}/panel",
    "{job}/readings",
    "{job}/readings/type",
    "{guide}/day",
    "{guide}/day?kind=air+changed",
    "{guide}/day?kind=ran+low",
    "{guide}/day?kind=coat+forgotten",
    "{guide}/log",
)


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        speak(patch)
        with Desk(tmp_path_factory.mktemp("made-up")) as made:
            yield made


@pytest.fixture(scope="module")
def places(desk):
    """Addresses of a job, its plan and a session at the booth."""
    plan = desk.post("/new", NEW).headers["location"]
    guide = desk.post("/guide", {"plan": plan.rpartition("/")[2]}).headers["location"]
    return {"plan": plan, "job": f"/jobs/{desk.job_of(plan)}", "guide": guide}


def left_on(desk, path):
    answer = desk.get(path)
    assert answer.status_code == 200
    assert f'<html lang="{LANGUAGE}">' in answer.text
    return words_left(visible(answer.text), NAMES | UNITS)


@pytest.mark.parametrize("path", WITHOUT_A_PLAN)
def test_nothing_is_said_past_the_catalogue(desk, path):
    assert {word.casefold() for word in left_on(desk, path)} - SIDES - PANELS - FILES == set()


@pytest.mark.parametrize("path", WITH_A_PLAN)
def test_nothing_of_a_job_is_said_past_the_catalogue(desk, places, path):
    left = {word.casefold() for word in left_on(desk, path.format(**places))}
    assert left - COLUMNS - SOURCES - SIDES - PANELS - FILES == set()


def test_what_is_refused_is_said_in_the_language_too(desk):
    answer = desk.post("/login", {"name": "nobody", "password": "wrong", "then": "/"})
    assert answer.status_code == 403
    assert words_left(visible(answer.text), NAMES) == []


def test_the_scripts_take_their_words_from_the_page(desk, places):
    """Every text that a script puts in place stands in the page as data, in the language of the reader."""
    text = desk.get(places["guide"]).text
    for name in ("there", "kept", "away", "said", "one", "many", "none", "no-back"):
        said = text.partition(f'data-{name}="')[2].partition('"')[0]
        assert said, name
        assert bare(said).strip() == "", name
