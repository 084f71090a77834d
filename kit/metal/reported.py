"""What lessons, cards and pages tell of steel and its trade in words alone: no constant.

Declared once for all that tell it. What one card alone tells stands beside that card.
"""

from kit.basics.claim import Claim, Kind

COUNTED = Claim(
    says="The trade counts pieces of steel, doubled at each fold; a handful of folds is "
    "usual.",
    kind=Kind.PRACTICE,
    told=(
        "Smiths count pieces",
        "A handful of folds is usual",
        "[Tt]rade counts",
        "two layers of one steel look like one",
    ),
)
WELDED = Claim(
    says="A forge weld is made solid, below melting: two clean faces, hot and squeezed, "
    "become one piece, steel like the rest.",
    kind=Kind.MEMORY,
    source="textbooks of welding in the solid state, without a page",
    told=("weld is made solid", "Clean, hot and squeezed", "sound forge weld is"),
)
MISSED = Claim(
    says="A weld that did not take is a crack, a black hairline along a layer. Scale, cold "
    "metal or a trapped gap are blamed, and one cold heat spoils several. It can run on in "
    "the quench and part in use, so such a bar is put aside until it is cut back to sound "
    "steel. Each weld more is one more chance of it.",
    kind=Kind.PRACTICE,
    told=(
        "did not take is a crack",
        "[Ss]cale, cold metal or a trapped gap",
        "black hairline",
        "with a bar that shows a hairline",
        "It is not ground on, not hardened",
        "open weld can",
        "real welds fail together",
        "Each weld more is also",
        "a weld that did not take (costs|, doubles)",
        "Dirt in a weld",
    ),
)
LOST_SKIN = Claim(
    says="Hot steel loses carbon to the air, most in its skin; a weld between like steels "
    "may show a thin pale line, so one steel folded on itself shows faint lines.",
    kind=Kind.PRACTICE,
    told=(
        "thin pale line where carbon was lost",
        "faint weld line",
        "outermost layers lose carbon",
    ),
)
AS_GOOD = Claim(
    says="A blade is as good as its steels, welds and heat treatment, and sharp as long as "
    "steel and heat treatment let it be; its pattern tells none of them.",
    kind=Kind.PRACTICE,
    told=(
        "as good as (its steels|what is in it)",
        "How long it stays sharp",
        "staying sharp is steel",
        "layers show in soft steel as in hard",
        "no face tells that",
        "more layers cut better",
        "picture tells nothing of welds",
        "only the maker knows",
        "hardened and tempered, cuts as well",
        "layers look alike, soft and hard",
        "weld is sound",
    ),
)
STIFF = Claim(
    says="How stiff a blade is comes from its shape: hard steel is as elastic as soft.",
    kind=Kind.MEMORY,
    source="textbooks of mechanics: stiffness goes with the cube of thickness; the modulus "
    "of steels hardly differs",
    told=("How stiff a blade is",),
)
WALKS = Claim(
    says="In hot steel carbon slips between the atoms of iron; nickel, chromium and "
    "manganese must change places with them and are a thousand times as slow or more. The "
    "colder, the slower. Authors differ: for nickel by four "
    "times, for chromium by six.",
    kind=Kind.MEMORY,
    source="carbon: Callister & Rethwisch, 9th ed., Table 5.2, read; nickel and chromium: "
    "the list FECRNI_DB of the package kawin, read; manganese, and how atoms move: "
    "Honeycombe & Bhadeshia, Steels",
    told=(
        "[Cc]arbon (moves|walks|walked|sits between|slips|got|gets)",
        "smallest atoms slip through",
        "[Nn]ickel,? (manganese and |hardly |stands |needs )",
        "pattern is nickel",
        "nickel got",
        "fire does not wash nickel out",
        "bright lines would take to fade",
        "pure nickel lines stay sharp",
        "Cooler atoms push",
        "no carbon has walked",
        "for nearly pure iron",
        "differ by tens of per cent",
        "Published figures for nickel",
        "figures in print differ",
        "small atoms? (slips|walk)",
        "needs a push to get through",
        "nickel to walk",
    ),
)
BACK_AGAIN = Claim(
    says="Grinding and polishing take the etch away, wear its steps and film; layers go on "
    "below, so another etch shows them. Hard steel takes longer to "
    "grind. On a good polish they may show faintly before.",
    kind=Kind.PRACTICE,
    told=(
        "[Pp]olish it away, etch again",
        "What wears is the step",
        "ink wears",
        "[Cc]lean it, (sand|etch)",
        "polished off and etched back",
        "grinding takes the etch off",
        "what the first etch did went with it",
        "show faintly before it is etched",
        "no wear is left",
        "side again|sides as well grinds the pattern",
        "longer to grind, not less of it",
        "polish took the etch off",
        "Worn off, it comes back",
        "are rubbed down",
    ),
)
FLUXED = Claim(
    says="Flux melts over hot steel, keeps air off, takes up scale and is squeezed out; "
    "stacks that are clean, tight and shut to the air are welded without. "
    "First blows are light.",
    kind=Kind.PRACTICE,
    told=(
        "melts over the hot steel",
        "tight and shut to the air are welded",
        "clean bright faces",
        "[Ff]lux (melts over|fills)",
        "flux and scale have run out",
    ),
)
UNEVEN = Claim(
    says="Real bars are uneven: sides bulge, ends go hollow, what dies cool moves less, "
    "what is hotter twists more, layers thin and wave, cores and axes wander, narrow bites "
    "lengthen and broad ones spread, narrow dies do not reach the middle of a thick bar; "
    "chalk burns off and punch marks close. A hand never repeats a face line by line.",
    kind=Kind.PRACTICE,
    told=(
        "[Rr]eal (bars?|layers|cores|ends|dies|bevels|ones|twist|steel it)\\b",
        "In (forged steel they|a forged bar they|a forge it depends)",
        "narrow bites lengthen",
        "Narrow dies in a thick bar",
        "your heat and your welds decide",
        "more even than forged",
        "chalk burns off",
        "pressure does not reach",
        "run ahead hotter",
        "where it is hotter or colder",
        "A real one, ground by hand",
    ),
)
VOLUME = Claim(
    says="Forging moves steel and keeps its volume.",
    kind=Kind.MEMORY,
    source="textbooks of forming, as Groover, Fundamentals of Modern Manufacturing, on "
    "bulk forming",
    told=(
        "its volume stays",
        "no steel is made or lost",
        "forging moves steel and takes none",
        "cannot be pressed together",
    ),
)
TWISTED_HOT = Claim(
    says="A bar that is twisted hot in one place and cold in another shears, and a cold "
    "twist tears welds; thin places tear under the hammer.",
    kind=Kind.PRACTICE,
    told=("twisted hot in one place", "Thin places tear"),
)
WARPED = Claim(
    says="In the quench core and cladding move differently: blades warp and cores crack.",
    kind=Kind.PRACTICE,
    told=("move differently in the quench",),
)
DARKER = Claim(
    says="Makers etch after hardening: the fire's scale covers an earlier etch. One steel "
    "etches finer and darker hard than soft, so an edge alone hardened, as under clay, "
    "shows a line that is no layer; how hard it is no line tells.",
    kind=Kind.PRACTICE,
    told=(
        "After: hardened and tempered",
        "etches unlike, hard and soft",
        "etched before the fire is covered",
        "read from a dark line",
        "etches (finer and )?darker",
        "coated with clay for its quench",
        "etched (dark|light)",
    ),
)
FINISHED = Claim(
    says="How the finish of steel is drawn, its sanding, relief and light, we guess: it is "
    "to look like etched steel.",
    kind=Kind.OURS,
    source="illustrative",
    told=(
        "finish (in the picture )?is illustrative",
        "(sanding|and) light (are )?illustrative",
        "greys of bare steel",
        "how strongly is illustrative",
    ),
)
FLAT_BEVEL = Claim(
    says="A blade's flat bevel leans about 3°: by half of what the spine is thicker than "
    "the edge, over its height.",
    kind=Kind.PRACTICE,
    source="plain arithmetic of the kit's own blade, 4 mm (5/32 in) at the spine, 0.4 mm "
    "(1/64 in) at the edge, 30 mm (1 3/16 in) high; such sizes are common practice",
    told=("bevel lies at about",),
)
CLAD_LEFT = Claim(
    says="Less cladding than 0.1 mm (0.004 in) would not outlive the grinding: our limit.",
    kind=Kind.PRACTICE,
    told=("cladding of at least",),
)
UNDERCUT = Claim(
    says="Acid undercuts and leaves scum, and bites faster where the bath moves. On one "
    "steel alone it shows little but welds; its lines are softer than print. "
    "Coffee and vinegar etch too, slowly.",
    kind=Kind.PRACTICE,
    told=(
        "[Rr]eal acid undercuts",
        "On one steel alone",
        "Etched lines are softer",
        "Coffee or vinegar",
        "coffee or vinegar, looked",
    ),
)
COLOURS = Claim(
    says="Heat colours depend on the light in the room: two old lists of them differ by up "
    "to 107 °C (193 °F).",
    kind=Kind.PUBLISHED,
    source="Chapman, Workshop Technology, and Stirling 1905, p. 50: lists of heat colours",
    seen=True,
    told=("Colours depend on the light",),
)
TAPER = Claim(
    says="A taper section at 5°44′ magnifies layers ten times.",
    kind=Kind.PUBLISHED,
    source="a glossary of metallography, article 'taper section'",
    seen=True,
    told=("Metallographers use",),
)
TRADE_NAMES = Claim(
    says="The trade's 15N20 is 75Ni8 by its standard; sheet of pure nickel is UNS N02200.",
    kind=Kind.PRACTICE,
    source="suppliers' sheets",
    told=("15N20 is a trade word", "Nickel is UNS"),
)
DENSITIES = Claim(
    says="The densities of iron and of carbon steels differ by less than one per cent.",
    kind=Kind.PUBLISHED,
    source="Metals Handbook Desk Edition, table of densities: 7830 to 7874 kg/m³",
    seen=True,
    told=("one density",),
)
SLAG = Claim(
    says="Wrought iron holds threads of slag.",
    kind=Kind.MEMORY,
    source="handbooks, without a page",
    told=("threads of slag",),
)
MAGNET = Claim(
    says="A magnet pulls at every carbon and low-alloy steel, layered or plain.",
    kind=Kind.MEMORY,
    source="textbooks of physics: ferrite and martensite are ferromagnetic",
    told=("[Mm]agnet (sticks|pulls)",),
)
