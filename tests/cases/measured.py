"""One invented panel and car as three kinds of files: each angle moves exponentially with coats.

Films of pigment over a ground approach their end like that (Kubelka and Munk, Z. Techn. Physik 12, 593 (1931)).
"""

import math

MOVES = {15: (93.0, 10.0), 25: (92.6, 2.2), 45: (90.5, -8.4), 75: (87.0, -13.0), 110: (85.0, -17.0)}
COATS = range(6)


def light(angle, coats):
    start, move = MOVES[angle]
    return start + move * 1.36 * (1 - math.exp(-0.265 * coats))


def spots(cars):
    """Role, coats as written, zone, true coats."""
    fields = [("field", str(n), "", n) for n in COATS]
    return [*fields, ("ground_ref", "", "", 0.0), *(("car", "", zone, real) for zone, real in cars.items())]


def own_table(car=2.4, cars=None, repeats=3, wiggle=0.05):
    """The program's own table."""
    rows = ["panel,role,coats,zone,reading,angle_deg,L,a,b"]
    for angle in MOVES:
        for role, coats, zone, real in spots(cars or {"left side": car}):
            for n in range(1, repeats + 1):
                value = light(angle, real) + wiggle * (n - (repeats + 1) / 2)
                rows.append(f"p1,{role},{coats},{zone},{n},{angle},{value:.2f},-0.80,1.40")
    return "\n".join(rows) + "\n"


def name_of(role, coats, zone):
    return {"field": f"field {coats}", "ground_ref": "ground", "car": f"car {zone}"}[role]


def cgats(car=2.4, *, names=name_of, conditions=True):
    """CGATS text with one table; angle and number stand in the sample names."""
    sets = [
        f'{at} "{names(role, coats, zone)} as{angle} r{n}" {light(angle, real) + 0.05 * (n - 2):.2f} -0.80 1.40'
        for at, (angle, (role, coats, zone, real), n) in enumerate(
            ((angle, spot, n) for angle in MOVES for spot in spots({"left side": car}) for n in (1, 2, 3)), 1
        )
    ]
    said = 'WEIGHTING_FUNCTION "ILLUMINANT, D65"\nWEIGHTING_FUNCTION "OBSERVER, 10 degree"\n'
    return (
        f'CGATS.17\nORIGINATOR "invented"\n{said if conditions else ""}NUMBER_OF_FIELDS 5\nBEGIN_DATA_FORMAT\n'
        f"SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS {len(sets)}\nBEGIN_DATA\n"
        + "\n".join(sets)
        + "\nEND_DATA\n"
    )


def cxf3(car=2.4):
    """CxF3 with a specification for each angle."""
    space = "http://colorexchangeformat.com/CxF3-core"
    things = "".join(
        f'<Object ObjectType="Standard" Name="{name_of(role, coats, zone)} r{n}" Id="{at}-{n}"><ColorValues>'
        + "".join(
            f'<ColorCIELab ColorSpecification="as{angle}"><L>{light(angle, real) + 0.05 * (n - 2):.2f}</L>'
            "<A>-0.80</A><B>1.40</B></ColorCIELab>"
            for angle in MOVES
        )
        + "</ColorValues></Object>"
        for at, (role, coats, zone, real) in enumerate(spots({"left side": car}))
        for n in (1, 2, 3)
    )
    ways = "".join(
        f'<ColorSpecification Id="as{angle}"><TristimulusSpec><Illuminant>D65</Illuminant>'
        "<Observer>10_Degree</Observer></TristimulusSpec><MeasurementSpec><GeometryChoice><MultiAngle>"
        f"<BRDFAngle><IlluminationAngle>45</IlluminationAngle><Aspecular>{angle}</Aspecular></BRDFAngle>"
        "</MultiAngle></GeometryChoice></MeasurementSpec></ColorSpecification>"
        for angle in MOVES
    )
    return (
        f'<?xml version="1.0" encoding="UTF-8"?><CxF xmlns="{space}"><FileInformation><Creator>invented</Creator>'
        f"</FileInformation><Resources><ObjectCollection>{things}</ObjectCollection>"
        f"<ColorSpecificationCollection>{ways}</ColorSpecificationCollection></Resources></CxF>"
    )


def ten_faults():
    """An own table with a fault of another kind in each of ten lines."""
    rows = own_table().splitlines()
    faulty = {
        2: "p1,strip,1,,1,15,90,0,0",
        3: "p1,field,two,,1,15,90,0,0",
        4: ",field,1,,1,15,90,0,0",
        5: "p1,field,1,,one,15,90,0,0",
        6: "p1,field,1,,1,steep,90,0,0",
        7: "p1,field,1,,1,15,bright,0,0",
        8: "p1,field,1,,1,15,400,0,0",
        9: "p1,car,2,,1,15,90,0,0",
        10: "p1,field,,,1,15,90,0,0",
        11: "p1,field,1,,1,15,90,0",
    }
    for line, text in faulty.items():
        rows[line - 1] = text
    return "\n".join(rows) + "\n"
