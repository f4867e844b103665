import pytest

from cases import sample_plan


@pytest.fixture(scope="session")
def hatch():
    return sample_plan.hatch_plan()


@pytest.fixture(scope="session")
def van():
    return sample_plan.van_plan()


@pytest.fixture(scope="session", params=["hatch", "van"])
def plan(request):
    return request.getfixturevalue(request.param)
