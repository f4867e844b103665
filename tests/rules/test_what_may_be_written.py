"""Nothing in the repository ties it to a machine, a registry, a maker or the way it was written."""

import re
import subprocess

import pytest

from rules.source_tree import ROOT

NEVER = {
    "a path of one machine": r"(?<![\w.])/(?:work|root|home|Users)/|[A-Z]:\\\\Users",
    "the address of a package registry": r"files\.pythonhosted|pypi\.org|registry\.npmjs|conda\.anaconda",
    "a network address of one machine": r"\b(?:10|192\.168|172\.(?:1[6-9]|2\d|3[01]))(?:\.\d{1,3}){2,3}\b",
    "a key or password": r"-----BEGIN [A-Z ]*PRIVATE KEY|\b(?:api[_-]?key|passwd)\s*[:=]\s*['\"]\w{8}",
    "the way it was written": r"(?i)\b(?:prototype|design document|as an ai|language model|todo|fixme|xxx)\b",
    "a number of an issue": r"(?<![\w&])#\d+\b(?![0-9A-Fa-f]*;)(?<!colour )",
    "a word that only sells": r"(?i)\b(?:blazing|seamless|cutting-edge|state-of-the-art|revolutionary|game-chang\w*)\b",
}
"""What must not stand in a file, as patterns; none of them names a product."""

COLOUR = re.compile(r"#[0-9A-Fa-f]{6}\b|#[0-9A-Fa-f]{3}\b")
BINARY = {".png", ".pdf", ".ttf"}
OWN = {"tests/rules/test_what_may_be_written.py"}
LOCKS = "locks/"


def _files():
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split("\n")
    return [name for name in listed if name and (ROOT / name).is_file() and name not in OWN]


@pytest.mark.parametrize("what", NEVER)
def test_no_file_holds_what_does_not_belong_in_the_repository(what):
    found = []
    for name in _files():
        if (ROOT / name).suffix in BINARY:
            continue
        if name.startswith(LOCKS) and what != "the address of a package registry":
            continue  # hashes and version numbers of others
        text = COLOUR.sub("", (ROOT / name).read_text(encoding="utf-8"))
        found += [
            f"{name}:{number}: {line.strip()[:80]}"
            for number, line in enumerate(text.splitlines(), 1)
            if re.search(NEVER[what], line)
        ]
    assert not found, f"{what}:\n" + "\n".join(found)


def test_what_ships_as_a_demo_says_that_it_is_invented():
    for name in _files():
        if name.startswith(
            ("src/laydown/data/jobs/", "src/laydown/data/shelf/", "examples/")
        ) and name.endswith(".toml"):
            assert "invented" in (ROOT / name).read_text(encoding="utf-8").lower(), (
                f"{name} does not say that it is invented"
            )


def test_pictures_stay_small():
    large = [
        name
        for name in _files()
        if name.endswith((".png", ".pdf")) and (ROOT / name).stat().st_size > 300_000
    ]
    assert not large, f"over 300 kB: {large}"
