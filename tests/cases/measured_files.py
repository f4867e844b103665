"""What the tests of measured colours share: short files, and how problems are looked at."""

from cases.speech import english
from laydown.schema.reading import Readings

OWN = """panel,role,coats,zone,reading,angle_deg,L,a,b
p1,field,0,,1,15,103.2,-1.1,2.5
p1,field,2.5,,1,45,70.4,-1,2
p1,ground_ref,,,1,45,90,0,1
p1,car,,front door,1,45,72,-1,2
p1,car,,front door,2,45,72.1,-1,2
"""

CGATS = """CGATS.17
ORIGINATOR "invented"   # no instrument has measured this
WEIGHTING_FUNCTION "ILLUMINANT, D65"
WEIGHTING_FUNCTION "OBSERVER, 10 degree"
NUMBER_OF_FIELDS 5
BEGIN_DATA_FORMAT
SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B
END_DATA_FORMAT
NUMBER_OF_SETS 3
BEGIN_DATA
1 "field 2 as45" 93.5 -1.2 3.4
2 "ground as45" 95.0 -0.5 1.5
3 "car front_door as45" 91.0 -1.3 4.0
END_DATA
"""

SPACE = "http://colorexchangeformat.com/CxF3-core"


def specification(angle, name=None, lamp="D65", eye="10_Degree", extra=""):
    return f"""<ColorSpecification Id="{name or f"as{angle}"}"><TristimulusSpec><Illuminant>{lamp}</Illuminant>
    <Observer>{eye}</Observer><Method>E308_Table5</Method></TristimulusSpec>
    <MeasurementSpec><MeasurementType>Spectrum_Reflectance</MeasurementType><GeometryChoice><MultiAngle>
    <BRDFAngle Notation="45as{angle}"><IlluminationAngle>45</IlluminationAngle><Aspecular>{angle}</Aspecular>
    {extra}</BRDFAngle></MultiAngle></GeometryChoice><WavelengthRange StartWL="400" Increment="10"/>
    </MeasurementSpec></ColorSpecification>"""


def lab(value, link):
    return f'<ColorCIELab ColorSpecification="{link}"><L>{value[0]}</L><A>{value[1]}</A><B>{value[2]}</B></ColorCIELab>'


def spectrum(factors, link):
    return f'<ReflectanceSpectrum ColorSpecification="{link}" StartWL="400">{" ".join(map(str, factors))}</ReflectanceSpectrum>'


def thing(name, values, key=None):
    return f"""<Object ObjectType="Standard" Name="{name}" Id="{key or name}">
    <CreationDate>2026-03-02T08:00:00Z</CreationDate><ColorValues>{values}</ColorValues></Object>"""


def cxf(objects, specifications, head='<?xml version="1.0" encoding="UTF-8"?>'):
    return f"""{head}<CxF xmlns="{SPACE}"><FileInformation><Creator>invented</Creator>
    <CreationDate>2026-03-02T08:00:00Z</CreationDate></FileInformation><Resources>
    <ObjectCollection>{objects}</ObjectCollection>
    <ColorSpecificationCollection>{specifications}</ColorSpecificationCollection></Resources></CxF>"""


def faults(found):
    assert not isinstance(found, Readings), "was read without a fault"
    assert all(one.where and one.what and one.hint for one in found)
    return {one.where: english(one.what) for one in reversed(found)}
