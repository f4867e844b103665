"""What a JSON text gives: a file leaves out what is not given, where a document says null."""

from typing import Any


def given(raw: Any) -> Any:
    """Drop what is not given.

    Parameters
    ----------
    raw
        Plain tables, lists and values.

    Returns
    -------
    The same without keys that hold null.
    """
    if isinstance(raw, dict):
        return {key: given(value) for key, value in raw.items() if value is not None}
    return [given(value) for value in raw] if isinstance(raw, list) else raw
