"""Sentences about structures: sites, cautions, where a rate constant comes from."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent

SENTENCES: dict[str, Callable[..., str]] = {
    "structure-phosphine": lambda smiles: (
        f"{smiles}: the phosphine takes ozone before any double bond; it is drawn as its oxide and its ozone is counted in."
    ),
    "structure-sulfide": lambda smiles: (
        f"{smiles}: the sulfide takes ozone before any double bond; it is drawn as the sulfoxide and its ozone is counted in. Too much ozone makes the sulfone."
    ),
    "structure-enamine": lambda smiles: (
        f"{smiles}: an enamine gives an amide and a carbonyl compound; it also falls apart with water, so keep the solution dry until ozone has taken it."
    ),
    "structure-amine": lambda smiles: (
        f"{smiles}: the free amine takes ozone before the double bond, to its N-oxide and beyond (dealkylation), so that yields suffer. Bind it with an equivalent of acid, or protect it; the ion is about a thousand times slower (munoz_2000)."
    ),
    "structure-enol-ether": lambda smiles: (
        f"{smiles}: an enol ether is cleaved to an ester and a carbonyl compound and reacts sooner than a plain double bond; in acid it falls apart by itself."
    ),
    "structure-enol-ester": lambda smiles: (
        f"{smiles}: an enol ester is cleaved to an anhydride of an acid and a carbonyl compound, which alcohols and water open."
    ),
    "structure-allene": lambda smiles: (
        f"{smiles}: both double bonds of the allene are cleaved; its middle carbon leaves as carbon dioxide (gas). One equivalent of ozone gives mixtures."
    ),
    "structure-electron-poor": lambda smiles: (
        f"{smiles}: a double bond beside C=O, CN, NO2 or the like reacts slower than a plain one, how much is uncertain: published constants in water run from 480 (a steroid enone, barron_2006) to 59 000 L/(mol s) (an open enone, peter_2007). Ozone slips past, other groups get their share, and the products may lose a carbon (anomalous ozonolysis)."
    ),
    "structure-vinyl-halide": lambda smiles: (
        f"{smiles}: a halogen on the double bond slows ozone a thousandfold and more (williamson_1968) and gives an acyl halide, perhaps phosgene or carbon monoxide with hydrogen halide. The products drawn are those before water or an alcohol opens them."
    ),
    "structure-alkyne": lambda smiles: (
        f"{smiles}: an alkyne is far slower than a double bond and gives a diketone by reduction, acids with water; ozone slips past."
    ),
    "structure-ring-follows": lambda smiles: (
        f"{smiles}: the ring bears an oxygen or nitrogen and takes ozone after the double bond. Stop in time: each minute too long costs product."
    ),
    "structure-thiophene": lambda smiles: (
        f"{smiles}: the ring with its sulfur takes ozone after the double bond, not cleanly. Stop in time."
    ),
    "structure-silane": lambda smiles: (
        f"{smiles}: the Si-H bond goes to the silanol with more ozone; its rate against the double bond is not known here."
    ),
    "structure-acetal": lambda smiles: f"{smiles}: with much ozone an acetal goes to the ester.",
    "structure-benzylic-ether": lambda smiles: (
        f"{smiles}: with much ozone a benzylic ether goes to the benzoate."
    ),
    "structure-aldehyde": lambda smiles: (
        f"{smiles}: an aldehyde is there from the start; it survives in the cold, takes ozone slowly, and the work-up meets it as well: borohydride makes the alcohol, peroxide the acid."
    ),
    "structure-imine": lambda smiles: (
        f"{smiles}: ozone attacks C=N as well, slower than C=C; this is not counted in."
    ),
    "structure-azo": lambda smiles: f"{smiles}: ozone attacks N=N as well; this is not counted in.",
    "structure-allylic-alcohol": lambda smiles: (
        f"{smiles}: an alcohol next to the double bond may lose that carbon too (anomalous ozonolysis); protect it if the yield matters."
    ),
    "structure-alkyl-iodide": lambda smiles: (
        f"{smiles}: ozone takes the iodine of an alkyl iodide (brown colour); this is not counted in."
    ),
    "structure-tetrasubstituted": lambda smiles: (
        f"{smiles}: a double bond with four groups gives hardly any ozonide, but dimeric and polymeric peroxides, which may fall out and explode when dry. Never filter them; reduce them in the flask."
    ),
    "structure-ring-cleaved": lambda smiles: (
        f"{smiles}: only a fused ring is there to be cleaved; it is slow, two ozone open one ring, and its ozonides are explosive."
    ),
    "structure-first-unknown": lambda smiles, count, alike: (
        f"{smiles}: {alike} double bonds are equally willing as far as is known here, so that one ozone gives a mixture. Cleave all {count}, or protect."
    ),
    "structure-one-of-several": lambda smiles, count: (
        f"{smiles}: {count} double bonds in one vessel: with one ozone some molecules are cut more than once and some not at all."
    ),
    "structure-slow-left": lambda smiles, count, left: (
        f"{smiles}: of {count} double or triple bonds the slow ones ({left} more ozone) are meant to stay; stop in time."
    ),
    "structure-all-of-several": lambda smiles, count: (
        f"{smiles}: {count} double or triple bonds in one vessel, all meant to be cleaved; the peroxides of them stand in the flask together."
    ),
    "structure-contest": lambda smiles, wanted, rival, low, high, converted: (
        f"{smiles}: while {percent(converted)} of the {wanted} is cleaved, {percent(low)} to {percent(high)} of the {rival} may go as well: competition of published rate constants that stand for each kind, widened for that and for the solvent; well mixed."
    ),
    "structure-unstable-product": lambda product: (
        f"{product}: an aldehyde with a carbonyl one carbon on is not stable (it enolises, condenses, loses carbon): use it at once or choose another work-up."
    ),
}
