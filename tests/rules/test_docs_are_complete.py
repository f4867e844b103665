"""The documentation keeps up with the program: findings, fields, commands, models, links, job files."""

import re
import runpy
import tomllib
from dataclasses import fields

import click
import pytest

from laydown.cli.main import cli
from laydown.reader.papers.job_file import decode_job
from rules.source_tree import DOCS, ROOT, SOURCE, finding_codes, modules

PAGES = sorted(DOCS.rglob("*.md"))
FINDINGS = DOCS / "findings"
WORDS_AND_FILES = (DOCS / "files.md", DOCS / "words.md")
TABLES = runpy.run_path(str(DOCS / "tables.py"))


def test_findings_are_made_with_codes_that_can_be_read_from_the_source():
    assert len(finding_codes()) >= 20


@pytest.mark.parametrize("code", sorted(finding_codes()))
def test_every_finding_has_a_page(code):
    page = FINDINGS / f"{code}.md"
    assert page.exists(), (
        f"{', '.join(finding_codes()[code])} makes the finding {code}: write docs/findings/{code}.md"
    )
    text = page.read_text(encoding="utf-8")
    assert text.startswith(f"# {code}\n"), f"{page.name} must begin with '# {code}'"
    for part in ("## What it means", "## Why", "## What to do"):
        assert part in text, f"docs/findings/{code}.md has no part '{part}'"


def test_every_page_of_a_finding_has_its_finding():
    pages = {page.stem for page in FINDINGS.glob("*.md")} - {"index"}
    assert not pages - set(finding_codes()), f"no finding any more: {sorted(pages - set(finding_codes()))}"


def test_the_list_of_findings_names_each_of_them():
    text = (FINDINGS / "index.md").read_text(encoding="utf-8")
    missing = [code for code in finding_codes() if f"({code}.md)" not in text]
    assert not missing, f"docs/findings/index.md does not link {missing}"


@pytest.mark.parametrize("noun", sorted(TABLES["NOUNS"]))
def test_every_field_of_a_file_is_described(noun):
    described = "\n".join(page.read_text(encoding="utf-8") for page in WORDS_AND_FILES)
    missing = [item.name for item in fields(TABLES["NOUNS"][noun]) if f"`{item.name}`" not in described]
    assert not missing, (
        f"{noun}: put '<!-- table: {noun} -->' into docs/files.md and run python docs/tables.py: {missing}"
    )


@pytest.mark.parametrize("command", sorted(cli.commands))
def test_every_command_is_shown_in_the_documentation(command):
    text = "\n".join(page.read_text(encoding="utf-8") for page in PAGES)
    assert f"laydown {command}" in text, f"no page shows how to use 'laydown {command}'"


@pytest.mark.parametrize("command", sorted(cli.commands))
def test_every_command_has_help_with_an_example(command):
    text = cli.commands[command].get_help(click.Context(cli.commands[command], info_name=command))
    assert f"laydown {command}" in text.split("Example", 1)[-1], f"laydown {command} --help shows no example"


def test_every_law_belongs_to_a_page_about_models():
    text = "\n".join(page.read_text(encoding="utf-8") for page in sorted((DOCS / "models").glob("*.md")))
    laws = {
        name[len("physics/") : -3]
        for name in modules()
        if name.startswith("physics/") and not name.endswith("__init__.py")
    }
    missing = sorted(name for name in laws if not re.search(rf"\b{name}\b", text))
    assert not missing, f"no page under docs/models names the module physics/{missing}"


@pytest.mark.parametrize("floor", TABLES["FLOORS"])
def test_the_reference_names_every_module(floor):
    text = (DOCS / "reference" / f"{floor}.md").read_text(encoding="utf-8")
    assert text == TABLES["reference_page"](floor), (
        f"docs/reference/{floor}.md is behind: run python docs/tables.py"
    )


@pytest.mark.parametrize("page", PAGES, ids=[str(page.relative_to(DOCS)) for page in PAGES])
def test_links_between_pages_lead_somewhere(page):
    for target in re.findall(r"\]\((?!https?:|#)([^)#\s]+)", page.read_text(encoding="utf-8")):
        assert (page.parent / target).exists(), (
            f"docs/{page.relative_to(DOCS)} links to {target}, which is not there"
        )


def test_links_of_the_front_page_lead_somewhere():
    for name in ("README.md", "CONTRIBUTING.md"):
        text = (ROOT / name).read_text(encoding="utf-8")
        for target in re.findall(r"\]\((?!https?:|#)([^)#\s]+)", text):
            assert (ROOT / target).exists(), f"{name} links to {target}, which is not there"


def _job_files():
    for page in [*PAGES, ROOT / "README.md"]:
        for number, block in enumerate(
            re.findall(r"```toml\n(.*?)```", page.read_text(encoding="utf-8"), re.DOTALL), 1
        ):
            if 'format = "laydown-job/1"' in block:
                yield pytest.param(block, id=f"{page.name}-{number}")


@pytest.mark.parametrize("text", list(_job_files()))
def test_job_files_in_the_documentation_are_read(text):
    job = decode_job(tomllib.loads(text), ROOT / "documentation.toml")
    assert job.panel, "a job without panels shows nothing"


def test_the_documentation_shows_a_job_file():
    assert list(_job_files())


@pytest.mark.parametrize("page", PAGES, ids=[str(page.relative_to(DOCS)) for page in PAGES])
def test_parts_of_files_in_the_documentation_are_toml(page):
    for block in re.findall(r"```toml\n(.*?)```", page.read_text(encoding="utf-8"), re.DOTALL):
        tomllib.loads(block)


@pytest.mark.parametrize("page", TABLES["PAGES"], ids=lambda page: page.name)
def test_made_tables_are_what_the_source_says(page):
    text = page.read_text(encoding="utf-8")
    assert TABLES["with_tables"](text) == text, f"{page.name} is behind the source: run python docs/tables.py"


def test_test_files_that_are_named_exist():
    places = [*PAGES, ROOT / "README.md", ROOT / "CONTRIBUTING.md", *SOURCE.rglob("*.py")]
    for place in places:
        for named in re.findall(r"tests/\w+/[\w/]*\.py", place.read_text(encoding="utf-8")):
            assert (ROOT / named).exists(), f"{place.relative_to(ROOT)} names {named}, which is not there"


def test_the_excerpt_on_the_front_page_is_what_the_demo_prints(tmp_path):
    page = runpy.run_path(str(DOCS / "front_page.py"))
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    made = page["with_excerpt"](text, page["demo"](tmp_path))
    assert made == text, "README.md is behind the program: run python docs/front_page.py"


def test_every_dependency_has_its_reason_in_the_docs():
    raw = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    lines = [*raw["project"]["dependencies"]]
    lines += [line for group in raw["dependency-groups"].values() for line in group]
    page = (DOCS / "decisions" / "dependencies.md").read_text("utf-8")
    wanted = {re.match(r"[\w-]+", line)[0] for line in lines}
    assert {name for name in wanted if not re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", page)} == set()
