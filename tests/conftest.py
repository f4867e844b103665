"""Which examples the laws are tried on."""

from hypothesis import HealthCheck, settings

from cases.thorough import LONG

# A gate gives the same answer for the same tree, however busy the machine; the long run looks for examples that
# nobody has seen.
settings.register_profile(
    "same examples", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("new examples", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("new examples" if LONG else "same examples")
