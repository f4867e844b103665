"""Writes picture and excerpt of README.md from a fresh run of the demo, so that they stay real.

Run ``python docs/front_page.py`` when plans or pictures changed; a test tells when the excerpt is behind.
"""

import re
import tempfile
from pathlib import Path

from laydown.desk.demo import demonstrate
from laydown.report.kit.typeset import png
from laydown.report.text.plan import plan_text
from laydown.words.show import ENGLISH

ROOT = Path(__file__).parents[1]
README = ROOT / "README.md"
PICTURE = Path(__file__).parent / "pictures" / "side-effect-1.png"
PICTURE_PX = 1400
PLAN_COLUMNS = 80

_MARK = re.compile(r"(<!-- plan -->\n```\n).*?(```\n<!-- end -->)", re.DOTALL)


def demo(folder: Path) -> str:
    """Plan the demo job into a folder and return the printed plan."""
    return plan_text(demonstrate(folder, ENGLISH).answer.planned.plan, ENGLISH, PLAN_COLUMNS)


def excerpt(printed: str) -> str:
    """Return verdict, adjustment of the effect coat and its first coat, as printed."""
    verdict = re.search(r"^VERDICT.*?\n\n", printed, re.DOTALL | re.MULTILINE)
    coat = re.search(r"^EFFECT .*?(?=^ coat 2|\n\n)", printed, re.DOTALL | re.MULTILINE)
    if verdict is None or coat is None:
        raise ValueError("the printed plan has no verdict or no effect coat")
    return verdict[0] + coat[0].rstrip("\n") + "\n"


def with_excerpt(text: str, printed: str) -> str:
    """Return the front page with the excerpt of a printed plan."""
    return _MARK.sub(lambda found: found[1] + excerpt(printed) + found[2], text)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as name:
        shown = demo(Path(name))
        PICTURE.write_bytes(png((Path(name) / "side-effect-1.svg").read_text(encoding="utf-8"), PICTURE_PX))
    README.write_text(with_excerpt(README.read_text(encoding="utf-8"), shown), encoding="utf-8")
