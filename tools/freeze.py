"""Writes everything laydown shows into a folder, so that a change that should change nothing can be held against it.

``python -m tools.freeze before``, change the code, ``python -m tools.freeze after``, ``diff -r before after``. Ids that
are random or made from a plan's text stand as ID, times as TIME.
"""

import argparse
import contextlib
import html
import io
import itertools
import json
import re
import secrets
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urljoin, urlsplit

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from pypdf import PdfReader  # noqa: E402

from cases.desk import NEW, Desk  # noqa: E402
from cases.guide import AT, Booth, Visitor  # noqa: E402
from cases.planning import planned  # noqa: E402
from laydown.booth.progress import standing_of  # noqa: E402
from laydown.cli.main import cli  # noqa: E402
from laydown.desk.exchange import bring_in  # noqa: E402
from laydown.desk.papers.document import plan_json  # noqa: E402
from laydown.desk.plans.kept import Ready  # noqa: E402
from laydown.desk.plans.outputs import write_outputs  # noqa: E402
from laydown.desk.plans.plan import plan_job  # noqa: E402
from laydown.desk.plans.why import items  # noqa: E402
from laydown.desk.sessions.ahead import event_of, present  # noqa: E402
from laydown.desk.sessions.fix import defects  # noqa: E402
from laydown.desk.sessions.session import read_live, text_of  # noqa: E402
from laydown.reader.papers.other_files import read_plan  # noqa: E402
from laydown.report.text.fix import word_of  # noqa: E402
from laydown.report.text.plan import plan_text  # noqa: E402
from laydown.store.kept import KeptEvent  # noqa: E402
from laydown.words.show import Words  # noqa: E402
from reference.extracts import CASES  # noqa: E402

DATA = ROOT / "src" / "laydown" / "data"
JOBS = sorted((DATA / "jobs").glob("*.toml"))
SYSTEMS = ("metric", "us")
MOST_PAGES = 400
MOST_OF_A_KIND = 12
STAGES = ("ground-wet", "ground-dry", "effect-wet", "effect-dry", "clear-wet", "baked")
EVERY = 1
"""Of the changes, faults and jobs, each how many-th is taken: a quick look takes few, under the same names."""
BENT = ('"bent"', "-1", "1e9", "[]", '"12 K"', '""', "true")

CHANGES = (
    ("rh = ", 'rh = "2 %"'),
    ("rh = ", 'rh = "80 %"'),
    ("temperature_c = ", "temperature_c = 9"),
    ("temperature_c = ", "temperature_c = 34"),
    ("nozzle_mm = ", "nozzle_mm = 1.6"),
    ("flow_g_s = ", "flow_g_s = 1.6"),
    ("speed_m_s = ", "speed_m_s = 0.35"),
    ("overlap = ", 'overlap = "50 %"'),
    ("painters = ", "painters = 2"),
    ('state = "repaired"', 'state = "sound"'),
    ("undercoat_lightness = ", "undercoat_lightness = 30"),
    ("[painter]", '[choices]\nwater = 0.3\nreducer = "fast"\n[painter]'),
    ("[painter]", "[choices]\nhardener = false\nnozzle_mm = 1.4\n[painter]"),
    ("[painter]", "[choices]\neffect_coats = 3.5\nground_coats = 1\n[painter]"),
    ("[painter]", "[surface]\ntemperature_c = 30\n[painter]"),
    ("[painter]", "[surface]\ntemperature_c = 8\n[painter]"),
    ("[painter]", "[surface]\ntemperature_c = 45\n[painter]"),
    ("rh = ", 'rh = "97 %"'),
    ('effect = "full"', 'effect = "none"'),
    ('clear = "full"', 'clear = "none"'),
    ('clear = "full"', 'clear = "fade"'),
    ('ground = "none"', 'ground = "full"'),
    ('effect = "none"', 'effect = "fade"'),
    ('ground = "full"', 'ground = "fade"'),
    ("cup_ml = ", "cup_ml = 200"),
    ("flow_g_s = ", "flow_g_s = 8"),
    ("ground_check = ", 'ground_check = "off"'),
    ("ground_check = ", 'ground_check = "unknown"'),
    ("face = ", 'face = ["few", "few", "few", "few", "few"]'),
    ("flop = ", 'flop = ["few", "match", "many", "many", "many"]'),
    ("face = ", 'face = ["many", "few", "many", "few", "match"]'),
    ("shape = ", 'shape = "large van"'),
    ("[painter]", "[limits]\nmetal_max_c = 40\nelectric_vehicle = true\n[painter]"),
    ("[painter]", "[limits]\nelectric_vehicle = true\n[painter]"),
    ("[painter]", '[limits]\nregion = "us-epa"\n[painter]'),
    ("[painter]", '[choices]\nstart = "moon"\n[painter]'),
    ("painters = ", 'painters = 1\nstart = "moon"'),
    ("painters = ", "painters = 1\ncan_walk = true"),
    ("painters = ", 'painters = 1\nstart = "rear"'),
)
"""Changes of a job that make plans say other things: the first words of a line, and what stands there instead."""

PRODUCT_CHANGES = (
    ("effect-a", "reducers = ", 'reducers = ["fast"]'),
    ("effect-a", "coats_max = ", "coats_max = 2"),
    ("effect-a", "volume_solids = ", ""),
    ("effect-a", "dry_um_per_coat = ", "dry_um_per_coat = 20"),
    ("effect-a", "dry_um_per_coat = ", "dry_um_per_coat = 2"),
    ("effect-a", "recoat_max_s = ", 'recoat_max_s = "10 min"'),
    ("effect-a", "[flash]", "[flashes]"),
    ("effect-a", "rh_low = ", 'rh_low = "40 %"'),
    ("effect-a", 'of = "base"', ""),
    ("ground-a", "use = ", 'use = "required"'),
    ("ground-a", "use = ", 'use = "none"'),
    ("ground-a", "coats_max = ", "coats_max = 2"),
    ("ground-a", "pot_life_s = ", 'pot_life_s = "10 min"'),
    ("ground-a", "water_max = ", 'water_max = "2 %"'),
    ("clear-a", "metal_c = ", "metal_c = 120"),
    ("clear-a", "pot_life_s = ", 'pot_life_s = "10 min"'),
    ("clear-a", "[bake]", "[baked]"),
)
"""Changes of a product on the shelf beside the job."""

_HEX = re.compile(r"(?<![#\w])(?<!\d\.)[0-9a-f]{8,}(?![\w])")
_TIMES = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|\+00:00)|\b\d{10}\.\d+\b")
_AGES = re.compile(r"just now|\d+ (?:min|h|days) ago")
_FORMAT = re.compile(r"laydown-(\w+)/\d")


def steady(text: str) -> str:
    """Return a text without what differs between two runs."""
    text = _HEX.sub("ID", text)
    text = _TIMES.sub("TIME", text)
    text = re.sub(
        r'(name="(?:token|made_from|version)" value=)"[^"]*"|(data-(?:token|version|at|now)=)"[^"]*"',
        r'\1\2"ID"',
        text,
    )
    return _AGES.sub("AGE", text)


class Freezer:
    """A folder that outputs are written into."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.part = folder, ""
        self.count = 0

    def keep(self, name: str, content: str) -> None:
        """Write one output."""
        safe = re.sub(r"[^\w./-]+", "_", name).strip("_/")
        stem, dot, ending = safe.rpartition(".")
        file = self.folder / self.part / (f"{stem[:180]}{dot}{ending}" if len(ending) < 5 else safe[:180])
        for number in itertools.count(2):
            if not file.exists():
                break
            file = file.with_name(f"{file.stem.rpartition('~')[0] or file.stem}~{number}{file.suffix}")
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(steady(content), encoding="utf-8")
        self.count += 1

    def call(self, name: str, *words: str) -> None:
        """Run a command and keep all that it prints and its exit code."""
        out, err = io.TextIOWrapper(io.BytesIO(), "utf-8"), io.StringIO()
        code: object = 0
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            try:
                cli.main(list(words))
            except SystemExit as left:
                code = left.code
        out.flush()
        printed = out.buffer.getvalue().decode()  # type: ignore[attr-defined]
        if printed.startswith("{"):
            printed = document_text(printed)
        told = f"exit {code}\n--- out\n{printed}--- err\n{err.getvalue()}".replace(str(ROOT), "ROOT")
        self.keep(name, re.sub(re.escape(tempfile.gettempdir()) + r"/[\w.-]+", "TMP", told))

    def keep_folder(self, name: str, folder: Path) -> None:
        """Keep the text of every file of a folder."""
        for file in sorted(folder.iterdir()):
            if file.suffix == ".svg":
                self.keep(f"{name}/{file.name}", file.read_text("utf-8").replace("><", ">\n<"))
            elif file.suffix == ".json":
                self.keep(f"{name}/{file.name}", document_text(file.read_text("utf-8")))
            elif file.suffix == ".pdf":
                self.keep(f"{name}/{file.name}.txt", pdf_text(file))


def document_text(text: str) -> str:
    """Return a document without its id, its sentences as text alone."""
    document = json.loads(text)
    document.pop("id", None)
    return json.dumps(plain(document), indent=1, ensure_ascii=False)


def plain(raw: object) -> object:
    """Put the text of a sentence in the place of its code and figures."""
    if isinstance(raw, dict):
        if "text" in raw and raw.keys() <= {"code", "figures", "text"}:
            return raw["text"]
        return {key: plain(value) for key, value in raw.items()}
    return [plain(value) for value in raw] if isinstance(raw, list) else raw


def pdf_text(file: Path) -> str:
    """Return the words of a PDF."""
    return "\n---\n".join(one.extract_text() for one in PdfReader(file).pages)


def changed(text: str) -> Iterator[tuple[str, str]]:
    """Job files with one thing changed."""
    lines = text.splitlines()
    for number, (begin, instead) in enumerate(CHANGES):
        place = next((at for at, line in enumerate(lines) if line.startswith(begin)), None)
        if place is not None and number % EVERY == 0:
            yield f"changed-{number:02d}", "\n".join([*lines[:place], instead, *lines[place + 1 :]]) + "\n"


def faulty(text: str) -> Iterator[tuple[str, str]]:
    """Files with one thing wrong, line by line."""
    lines = text.splitlines()
    for number, line in enumerate(lines):
        before, after = lines[:number], lines[number + 1 :]
        key, equals, value = line.partition("=")
        if line.startswith("#") or not line.strip() or number % EVERY:
            continue
        yield f"{number:03d}-gone", "\n".join(before + after)
        if equals and not line.startswith("["):
            yield f"{number:03d}-misspelt", "\n".join([*before, f"{key.strip()}x = {value}", *after])
            for place, bent in enumerate(BENT):
                yield f"{number:03d}-bent-{place}", "\n".join([*before, f"{key} = {bent}", *after])
        yield f"{number:03d}-twice", "\n".join([*before, line, line, *after])


def plans(into: Freezer, work: Path) -> None:
    """Plans of shipped and changed jobs, and all that reads a plan."""
    for job in JOBS[::EVERY]:
        planned_job = plan_job(job).planned
        kept = work / job.stem
        for system in SYSTEMS:
            folder = work / f"{job.stem}-{system}"
            write_outputs(planned_job, folder, Words(system=system))
            into.keep_folder(f"{job.stem}/{system}", folder)
            into.call(f"{job.stem}/{system}.txt", "plan", str(job), "--units", system)
        shutil.copytree(work / f"{job.stem}-metric", kept)
        read(into, job, kept)
        for name, text in changed(job.read_text("utf-8")):
            file = work / f"{job.stem}-{name}.toml"
            file.write_text(text, "utf-8")
            for csv in job.parent.glob("*.csv"):
                shutil.copy(csv, work)
            into.call(f"{job.stem}/{name}.txt", "plan", str(file))
            into.call(f"{job.stem}/{name}.us.txt", "plan", str(file), "--units", "us")
            into.call(f"{job.stem}/{name}.json", "plan", str(file), "--json")
    job = DATA / "jobs" / "wing-and-door.toml"
    for number, (product, begin, instead) in enumerate(PRODUCT_CHANGES):
        if number % EVERY:
            continue
        folder = work / f"shelf-{number}"
        (folder / "shelf").mkdir(parents=True)
        shutil.copy(job, folder)
        lines = (DATA / "shelf" / f"{product}.toml").read_text("utf-8").splitlines()
        told = [instead if line.startswith(begin) else line for line in lines]
        (folder / "shelf" / f"{product}.toml").write_text("\n".join(told), "utf-8")
        into.call(f"shelf/{number:02d}.txt", "plan", str(folder / job.name))
        into.call(f"shelf/{number:02d}.us.txt", "plan", str(folder / job.name), "--units", "us")
        into.call(f"shelf/{number:02d}.json", "plan", str(folder / job.name), "--json")
    for name, case in [*CASES.items()][::EVERY]:
        made = planned(case)
        into.keep(f"reference/{name}.json", document_text(plan_json(made.plan)))
        for system in SYSTEMS:
            into.keep(f"reference/{name}.{system}.txt", plan_text(made.plan, Words(system=system), 80))
            folder = work / f"reference-{name}-{system}"
            write_outputs(made, folder, Words(system=system))
            into.keep_folder(f"reference/{name}/{system}", folder)


def read(into: Freezer, job: Path, kept: Path) -> None:
    """What the commands say of one plan."""
    plan = read_plan(kept)
    for system in SYSTEMS:
        for item in ("", *items(plan)[::EVERY]):
            words = ["why", str(kept), *([item] if item else []), "--units", system]
            into.call(f"why/{job.stem}/{system}/{item or 'all'}.txt", *words)
        into.call(f"pour/{job.stem}/{system}.txt", "pour", str(kept), "--units", system)
        for number, poured in enumerate(("base=100", "base=900", "hardener=90", "base=450", "nothing=3")):
            for layer in ("ground", "effect", "clear"):
                words = ["pour", str(kept), "--layer", layer, "--poured", poured, "--units", system]
                into.call(f"pour/{job.stem}/{system}-{layer}-{number}.txt", *words)
        into.call(
            f"pour/{job.stem}/{system}-have.txt", "pour", str(kept), "--have", "base=200", "--units", system
        )
        for number, words in enumerate(STRIPS):
            into.call(f"strip/{job.stem}/{system}-{number}.txt", "strip", str(job), *words, "--units", system)
        sheet = kept.parent / f"{job.stem}-{system}-sheet.pdf"
        into.call(
            f"strip/{job.stem}/{system}-sheet.txt",
            "strip",
            str(job),
            "--print",
            str(sheet),
            "--units",
            system,
        )
        if sheet.exists():
            into.keep(f"strip/{job.stem}/{system}-sheet-pdf.txt", pdf_text(sheet))
        for stage in STAGES:
            for fault in FAULTS[::EVERY]:
                words = [
                    "fault",
                    str(kept),
                    "--when",
                    stage,
                    "--defect",
                    fault,
                    "--panel",
                    "front door",
                    "--size",
                    "30 cm",
                ]
                into.call(f"fault/{job.stem}/{system}/{stage}-{fault}.txt", *words, "--units", system)
    into.call(f"fault/{job.stem}.txt", "fault", str(kept))
    for number, words in enumerate(TRIES):
        into.call(f"try/{job.stem}-{number}.txt", "try", str(job), *words)


STRIPS = (
    (),
    ("--ground", "match", "--face", "2", "--flop", "between 2 and 3"),
    ("--ground", "slightly off", "--face", "few few match many many many", "--flop", "3"),
    ("--ground", "off", "--face", "few few few few few few", "--flop", "few few few few few few"),
    ("--ground", "bent", "--face", "9", "--flop", "many few"),
    ("--step-coats", "1-6", "--face", "5", "--flop", "1", "--card-gone-after", "2"),
    ("--face", "2", "--count"),
)
TRIES = (
    ("--water", "0,5%,10%"),
    ("--painters", "2", "--second-cup", "yes"),
    ("--air", "24C,35%"),
    ("--hand-speed", "0.6 m/s", "--refill-time", "45 s", "--effect-coats", "2.5"),
    ("--walk", "yes", "--reducer", "slow,fast", "--nozzle", "1.2", "--hardener", "no"),
    ("--water", "wet"),
    (),
)


FAULTS = tuple(word_of(one.key) for one in defects())


def files(into: Freezer, work: Path) -> None:
    """What is said of faulty files, and of wrong calls."""
    good = [*JOBS, *sorted((DATA / "shelf").glob("*.toml"))]
    for source in good:
        for name, text in faulty(source.read_text("utf-8")):
            file = work / f"faulty-{source.stem}-{name}.toml"
            file.write_text(text, "utf-8")
            into.call(f"check/{source.stem}/{name}.txt", "check", str(file))
            file.unlink()
    side = json.loads((work / "side.json").read_text("utf-8")) if (work / "side.json").exists() else None
    into.call("side/list.txt", "side", "--list")
    into.call("side/list.us.txt", "side", "--list", "--units", "us")
    into.call(
        "side/made.txt", "side", "medium hatch", "--measure", "roof_m=1.46", "-o", str(work / "side.json")
    )
    into.call("side/bad.txt", "side", "medium hatch", "--measure", "roof_m=9", "--measure", "tail=2")
    into.call("side/none.txt", "side", "lorry")
    side = json.loads((work / "side.json").read_text("utf-8"))
    for key in side:
        for number, bent in enumerate((None, "bent", -1, [])):
            (work / "bent-side.json").write_text(json.dumps(side | {key: bent}), "utf-8")
            into.call(f"check/side/{key}-{number}.txt", "check", str(work / "bent-side.json"))
    for kind in ("job", "product", "side", "plan"):
        into.call(f"schema/{kind}.txt", "schema", kind)
    for name in cli.commands:
        into.call(f"help/{name}.txt", name, "--help")
    into.call("help/all.txt", "--help")
    into.call("help/none.txt", "polish")
    into.call("help/job.txt", "plan", str(work / "nowhere.toml"))


class Pages:
    """Visits every page that can be reached from the first ones."""

    def __init__(self, into: Freezer, get: Callable[[str], object], kind: str) -> None:
        self.into, self.get, self.kind = into, get, kind
        self.seen: dict[str, int] = {}

    def visit(self, *first: str) -> None:
        """Go through all pages, nearest first."""
        waiting, known = list(first), set(first)
        while waiting and len(self.seen) < MOST_PAGES:
            path = waiting.pop(0)
            shape = steady(re.sub(r"=[^&]*", "=", path))
            self.seen[shape] = self.seen.get(shape, 0) + 1
            if self.seen[shape] > MOST_OF_A_KIND:
                continue
            answer = self.get(path)
            kind = answer.headers.get("content-type", "")
            place = answer.headers.get("location", "")
            if "html" not in kind and "svg" not in kind and not place:
                continue
            self.into.keep(f"{self.kind}/{steady(path)}.html", f"{answer.status_code} {place}\n{answer.text}")
            found = re.findall(r'(?:href|src)="([^"#]+)', answer.text) + ([place] if place else [])
            for link in found:
                to = urljoin(path, link.replace("&amp;", "&"))
                if not urlsplit(to).netloc and not to.startswith(("/static", "/font")) and to not in known:
                    known.add(to)
                    waiting.append(to)


def pages(into: Freezer, work: Path) -> None:
    """Every page of a book with all shipped jobs, in both systems."""
    for system in SYSTEMS:
        with Desk(work / f"desk-{system}") as desk:
            for job in JOBS:
                if "readings" not in job.read_text("utf-8"):
                    bring_in(desk.book, job.read_bytes(), job.name, AT)
            made = desk.post("/new", NEW).headers["location"]
            desk.book.put_setting("units", system)
            seen = Pages(into, desk.client.get, system)
            job_id = desk.job_of(made)
            seen.visit(
                "/jobs",
                "/new",
                f"{made}",
                f"{made}/mix",
                f"/jobs/{job_id}/panel",
                f"/jobs/{job_id}/readings",
                f"/jobs/{job_id}/edit",
                f"{made}/maps",
                "/sides/measure?shape=medium+hatch",
                "/settings",
                "/shelf/new",
            )
            for number, wish in enumerate(
                ({"rh": "60", "reducer": "slow"}, {"temperature_c": "9"}, {"rh": "bent"})
            ):
                into.keep(f"{system}/try-{number}.html", desk.client.get(f"{made}/try", params=wish).text)
            posts(into, desk, system, job_id, made)


def hidden(desk: Desk, path: str) -> dict[str, str]:
    """Return what the form of a page sends back unseen."""
    found = re.findall(r'name="(version|made_from)" value="([^"]*)"', desk.get(path).text)
    return {name: html.unescape(value) for name, value in found}


def posts(into: Freezer, desk: Desk, system: str, job_id: str, made: str) -> None:
    """Forms with something wrong in them, and forms that are right."""

    def sent(name: str, path: str, fields: dict[str, str]) -> None:
        answer = desk.post(path, fields)
        into.keep(
            f"posts/{system}/{name}.html",
            f"{answer.status_code} {answer.headers.get('location', '')}\n{answer.text}",
        )

    for field in NEW:
        for number, bent in enumerate(("", "bent", "-1", "1e9")):
            sent(f"new-{field}-{number}", "/new", NEW | {field: bent})
    text = desk.fields(f"/jobs/{job_id}/edit")
    made_from = hidden(desk, f"/jobs/{job_id}/edit")
    sent(
        "edit",
        f"/jobs/{job_id}/edit",
        text | made_from | {"text": 'format = "laydown-job/1"\n[job]\nname = 1\n'},
    )
    sent("edit-broken", f"/jobs/{job_id}/edit", made_from | {"text": "["})
    panel = hidden(desk, f"/jobs/{job_id}/panel")
    ticks = {"coats": "0 1 2 3 4 5", "ground_check": "match"}
    ticks |= {f"face.{n}": ("few", "few", "match", "many", "many", "many")[n] for n in range(6)}
    ticks |= {f"flop.{n}": ("few", "few", "match", "many", "many", "many")[n] for n in range(6)}
    sent("panel", f"/jobs/{job_id}/panel", panel | ticks)
    sent(
        "panel-bad",
        f"/jobs/{job_id}/panel",
        panel | {"ground_check": "bent", "card_gone_after": "99", "coat_g_m2": "-3"},
    )
    readings = hidden(desk, f"/jobs/{job_id}/readings/type")
    sent("readings", f"/jobs/{job_id}/readings/type", readings | {"text": "bent", "angles_deg": "x"})
    for layer in ("ground", "effect", "clear"):
        for number, grams in enumerate(("10", "900", "bent")):
            sent(
                f"pour-{layer}-{number}",
                f"{made}/mix/{layer}",
                {"scale": grams, "line": "1", "grams": grams},
            )
    csv = (DATA / "jobs" / "white-pearl-left-panel.csv").read_bytes()
    for name, content in (("panel.csv", csv), ("bent.csv", csv[:300] + b"x;y\n1;"), ("none.csv", b"")):
        answer = desk.send(
            f"/jobs/{job_id}/readings", "file", name, content, **hidden(desk, f"/jobs/{job_id}/readings")
        )
        into.keep(f"posts/{system}/readings-{name}.html", f"{answer.status_code}\n{answer.text}")
        into.keep(f"posts/{system}/readings-{name}-seen.html", desk.get(f"/jobs/{job_id}/readings").text)
    edit = desk.fields(f"/jobs/{job_id}/edit") | {
        "text": desk.get(f"/jobs/{job_id}/job.toml").text.replace("0417", "0418")
    }
    sent("edit-first", f"/jobs/{job_id}/edit", hidden(desk, f"/jobs/{job_id}/edit") | edit)
    sent(
        "edit-second",
        f"/jobs/{job_id}/edit",
        made_from | edit | {"text": edit["text"].replace("0418", "0419")},
    )
    into.keep(f"posts/{system}/delete.html", desk.get(f"/jobs/{job_id}/delete").text)
    sent("away", f"/jobs/{job_id}/away", {})
    into.keep(f"posts/{system}/away-list.html", desk.get("/jobs/away").text)
    into.keep(f"posts/{system}/compare.html", desk.get(f"{made}/compare").text)
    sent("shelf", "/shelf", {"name": "x", "kind": "effect"})
    sent("side", "/sides/measure", {"shape": "medium hatch", "roof_m": "9"})
    sent("units", "/settings/units", {"units": "furlong"})
    sent("user", "/settings/user", {"name": "", "role": "king", "password": "a"})
    into.keep(f"posts/{system}/nowhere.html", desk.get("/nowhere").text)
    into.keep(f"posts/{system}/no-plan.html", desk.get("/plans/none").text)


def guide(into: Freezer, work: Path) -> None:
    """The live view step by step, in both systems, and what it says when something goes wrong."""
    for system in SYSTEMS:
        clock = itertools.count(1_800_000_000, 7)
        folder = work / f"booth-{system}"
        folder.mkdir()
        booth = Booth(folder)
        booth.book.put_setting("units", system)
        booth.clock.__class__.__call__ = lambda _self, ticks=clock: float(next(ticks))
        session = booth.new_session()
        visitor = Visitor(booth, session)
        for number in range(90):
            now_s = booth.clock()
            live = read_live(booth.book, Ready(), session)
            node = present(standing_of(live.plan, live.session, now_s), now_s)
            into.keep(f"{system}/{number:02d}.html", visitor.get("").text)
            state = visitor.client.get(f"/guide/{session}/state").text
            into.keep(f"{system}/{number:02d}.state.txt", state)
            if number % 4 == 0:
                for path in ("/ahead", "/day", "/log", "/fix"):
                    into.keep(f"{system}/{number:02d}{path}.html", visitor.get(path).text)
                for stage in ("ground_wet", "effect_dry"):
                    said = {"stage": stage, "defect": "clouds", "panel": "front door", "size": "30 cm"}
                    into.keep(f"{system}/{number:02d}-{stage}.html", visitor.get("/ways", **said).text)
            buttons = [ask.yes for ask in node.asks if not ask.answer]
            buttons += [one for one in node.phases[0].screen.buttons if one.main]
            if not buttons:
                break
            event = event_of(buttons[0], f"tap-{number}", booth.clock())
            booth.book.add_events(session, [KeptEvent(event.id, AT, AT, text_of(event))])
        booth.book.close()


PARTS = {"plans": plans, "files": files, "pages": pages, "guide": guide}


def main() -> None:
    """Write what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument(
        "--only", choices=list(PARTS), action="append", help="only this part; may be repeated"
    )
    parser.add_argument("--every", type=int, default=1, help="take only each N-th change, fault and job")
    given = parser.parse_args()
    globals()["EVERY"] = given.every
    numbers = itertools.count(1)
    secrets.token_hex = lambda size=8: f"{next(numbers):0{2 * size}x}"  # type: ignore[assignment]
    into = Freezer(given.folder)
    for name in given.only or PARTS:
        into.part = name
        shutil.rmtree(given.folder / name, ignore_errors=True)
        with tempfile.TemporaryDirectory() as work:
            PARTS[name](into, Path(work))
    print(f"{into.count} outputs in {given.folder}")


if __name__ == "__main__":
    main()
