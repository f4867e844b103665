"""The usual cautions: a domain of its own, never weaker than its sources."""

from laydown.words.catalogue import Sentence, sentences

TABLE = sentences(
    # breathing protection for hardened mixes, as a region speaks of it
    Sentence("breathing.europe", "air-fed visor to EN 14594"),
    Sentence("breathing.us", "supplied-air respirator of the type in the shop's written programme"),
    Sentence("breathing.anywhere", "air-fed breathing apparatus with a visor"),
    # cautions, in the order in which they are shown
    Sentence("caution.s01.title", "Breathe fed air"),
    Sentence(
        "caution.s01.text",
        "Hardener in the mix, or any clear: wear {breathing}, fed with clean breathing air, "
        "flow indicator in the green. A filter mask neither warns of isocyanate mist nor holds "
        "it back well enough.",
    ),
    Sentence("caution.s02.title", "Visor stays down"),
    Sentence(
        "caution.s02.text",
        "Keep the visor down until you are outside or the booth's clearing time has passed. "
        "The finest mist cannot be seen. Look at the work afterwards.",
    ),
    Sentence("caution.s03.title", "Clearing time"),
    Sentence(
        "caution.s03.text",
        "Use the clearing time measured for your own booth. laydown counts it from the last "
        "trigger; without a number it says: unknown, stay air-fed.",
    ),
    Sentence("caution.s04.title", "Skin and eyes"),
    Sentence(
        "caution.s04.text",
        "Gloves that suit the product, overalls, no bare wrists. Hardener on the skin comes off at once.",
    ),
    Sentence("caution.s05.title", "Health"),
    Sentence(
        "caution.s05.text",
        "Wheezing, a tight chest or a rash, even hours later or at night: stop spraying, tell "
        "your employer, see a doctor. There are health checks and urine tests for sprayers; "
        "ask for them.",
    ),
    Sentence("caution.s06.title", "No electronics inside"),
    Sentence(
        "caution.s06.text",
        "Tablet, phone, scale, lamp, fan and charger stay outside while anybody sprays, mixes "
        "solvent, or vapour is about, unless they are approved for that zone. Read the plan at "
        "the door or take the paper card.",
    ),
    Sentence("caution.s07.title", "Airflow first"),
    Sentence(
        "caution.s07.text",
        "Fan on and proven before the trigger, doors shut, filters in date. No air, no spraying.",
    ),
    Sentence("caution.s08.title", "Earth and static"),
    Sentence(
        "caution.s08.text",
        "Bond booth, car, drums and gun washer to earth; wear conductive shoes; do not wipe "
        "plastic dry while solvent stands open.",
    ),
    Sentence("caution.s09.title", "Fire"),
    Sentence(
        "caution.s09.text",
        "No flame, spark or hot lamp; extinguisher within reach; sanding dust and soaked wipes "
        "into a closed metal bin. Waterborne paint still carries solvent, and clear burns.",
    ),
    Sentence("caution.s10.title", "Blowers"),
    Sentence(
        "caution.s10.text",
        "Blow only once the film no longer runs, with clean filtered air, never on a bare "
        "solvent film or a hot surface. Rated equipment only; a blower is not a heater. Keep "
        "below the vehicle maker's temperature.",
    ),
    Sentence("caution.s11.title", "Bake"),
    Sentence(
        "caution.s11.text",
        "Nobody inside; purge first. Fuel, battery, spray cans and gas bottles are dealt with "
        "as the vehicle maker says.",
    ),
    Sentence("caution.s12.title", "Waste"),
    Sentence(
        "caution.s12.text",
        "Keep waterborne, solvent and hardener waste apart and vented. Never seal water with "
        "hardener, or water with metal flake: gas forms. Nothing goes down the drain; a "
        "licensed collector takes it.",
    ),
    Sentence("caution.s13.title", "Compressed air"),
    Sentence("caution.s13.text", "Never on skin or clothes. Breathing air only from the breathing-air line."),
    Sentence("caution.s14.title", "What comes first"),
    Sentence(
        "caution.s14.text",
        "This program helps to plan. The data sheet, the safety data sheet, local law and your "
        "own risk assessment come first; where they differ from it, follow them.",
    ),
)
