"""What a call is refused for, so that a test can look at it."""

import pytest

from laydown.schema.problem import InputError


def problems_of(call, *given, **more):
    """Problems for which a call is refused; the test fails where it is not."""
    with pytest.raises(InputError) as caught:
        call(*given, **more)
    return caught.value.problems


def answer_or_problems(call, *given, **more):
    """What a call gives, or the problems for which it is refused."""
    try:
        return call(*given, **more)
    except InputError as error:
        return error.problems
