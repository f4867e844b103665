"""Store the reference plans that changed and print what changed: ``python tests/reference/update.py``."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from reference.extracts import CASES, extract, path_of, store, stored, table


def main() -> None:
    """Store every plan that changed; print a table of old and new figures."""
    for name, case in CASES.items():
        new = extract(case)
        lines = table(stored(name), new) if path_of(name).exists() else ["new"]
        print("\n".join([name, *(f"  {line}" for line in lines or ["unchanged"])]))
        if lines:
            store(name, new)


if __name__ == "__main__":
    main()
