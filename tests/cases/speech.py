"""How laydown speaks to two readers: English in metric units, and in US units."""

from laydown.words.show import ENGLISH, Words

english = ENGLISH
"""Makes a sentence of a code and figures."""

US = Words(system="us")
