"""Places of a panel as they are shown and counted with."""

from laydown.planning.counts.readings import panel_readings, spots_read
from laydown.schema.reading import Reading, Readings


def read(rows):
    made = [
        Reading("p", role, coats, zone, n, angle, light, 0.0, 1.0)
        for role, coats, zone, n, angle, light in rows
    ]
    return Readings("x.csv", tuple(made))


def test_places_come_in_the_order_ground_fields_car_with_their_means():
    found = spots_read(
        read(
            [
                ("car", None, "door", 1, 45.0, 80.0),
                ("field", 2.0, "", 1, 45.0, 84.0),
                ("field", 0.0, "", 1, 45.0, 90.0),
                ("field", 0.0, "", 2, 45.0, 91.0),
                ("ground_ref", 0.0, "flap", 1, 45.0, 89.0),
            ]
        )
    )
    assert [(one.role, one.coats, one.zone, one.count) for one in found] == [
        ("ground_ref", None, "flap", 1),
        ("field", 0.0, "", 2),
        ("field", 2.0, "", 1),
        ("car", None, "door", 1),
    ]
    # 90 and 91 lie 1.0 apart: their median, which is 90.5 as well
    assert found[1].lab == {45.0: (90.5, 0.0, 1.0)}


def test_a_reading_that_lies_far_off_is_named_by_its_number():
    rows = [("field", 1.0, "", n, 45.0, 80.0 + 0.1 * n) for n in (2, 3, 5, 8)] + [
        ("field", 1.0, "", 7, 45.0, 95.0)
    ]
    (found,) = spots_read(read(rows))
    assert (found.count, found.dropped) == (4, (7,))


def test_an_angle_that_is_missing_somewhere_is_shown_and_does_not_count():
    rows = [
        (role, coats, "", 1, 45.0, 80.0) for role, coats in (("field", 0.0), ("field", 1.0), ("car", None))
    ]
    found = spots_read(read([*rows, ("field", 1.0, "", 1, 15.0, 99.0)]))
    assert [(one.idle_deg, one.lab.get(15.0)) for one in found] == [
        ((), None),
        ((15.0,), (99.0, 0.0, 1.0)),
        ((), None),
    ]


def test_places_without_a_common_angle_are_still_shown():
    found = spots_read(read([("field", 0.0, "", 1, 15.0, 90.0), ("car", None, "", 1, 45.0, 80.0)]))
    assert [one.idle_deg for one in found] == [(15.0,), (45.0,)]


def test_as_many_readings_are_shown_as_dropped_as_the_count_leaves_out():
    rows = [
        (
            role,
            coats,
            "",
            n,
            angle,
            90.0 - 3 * (coats or 1.5) + 0.1 * n + (20 if (role, coats, n) == ("field", 2.0, 4) else 0),
        )
        for role, coats in (("field", 0.0), ("field", 1.0), ("field", 2.0), ("car", None))
        for n in range(1, 6)
        for angle in (15.0, 45.0)
    ]
    counted = panel_readings(read(rows))
    assert counted.dropped == sum(len(one.dropped) for one in spots_read(read(rows))) == 1
