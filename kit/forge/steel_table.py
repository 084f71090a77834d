"""The rack: what each standard allows, and what the kit computes with.

Tables only, in weight per cent; `kit.forge.steels` reads them. Iron is the balance. A dash
means that the standard gives no figure. A steel is added by a row in each table.

Sources
-------
Ranges: the standard named in ``ABOUT``, spelled out in ``STANDARDS``. "published" rows
were compared with copies of its table; rows "from memory" were not.
Nominal values: ours. Each lies within its range, where the trade's bars usually lie;
the certificate of your own bar is better.
"""

from kit.basics.claim import Claim, Kind

# What the standard allows. Silicon of the ASTM A29 steels: only if ordered so.
LIMITS = """
grade        C        Mn      Si      Cr        Ni        Mo      V       W     P
1018         .15-.20  .60-.90 .15-.35 -         -         -       -       -     -
1075         .70-.80  .40-.70 .15-.35 -         -         -       -       -     -
1080         .75-.88  .60-.90 .15-.35 -         -         -       -       -     -
1084         .80-.93  .60-.90 .15-.35 -         -         -       -       -     -
1095         .90-1.03 .30-.50 .15-.35 -         -         -       -       -     -
5160         .56-.64  .75-1.0 .15-.35 .70-.90   -         -       -       -     -
52100        .93-1.05 .25-.45 .15-.35 1.35-1.60 ≤.25      ≤.10    -       -     -
15N20        .72-.78  .30-.50 .15-.35 ≤.15      1.80-2.10 ≤.10    -       -     -
80CrV2       .75-.85  .30-.50 .15-.35 .40-.60   -         -       .15-.25 -     -
L6           .65-.75  .25-.80 .10-.50 .60-1.20  1.25-2.00 ≤.50    -       -     -
O1           .85-1.00 1.0-1.4 .10-.50 .40-.60   -         -       ≤.30    .4-.6 -
W1           .70-1.50 .10-.40 .10-.40 ≤.15      -         -       ≤.10    -     -
W2           .85-1.50 .10-.40 .10-.40 ≤.15      -         -       .15-.35 -     -
304          ≤.08     ≤2.0    ≤1.0    18-20     8.0-11.0  -       -       -     -
316          ≤.08     ≤2.0    ≤1.0    16-18     10-14     2.0-3.0 -       -     -
420          ≥.15     ≤1.0    ≤1.0    12-14     -         -       -       -     -
440C         .95-1.20 ≤1.0    ≤1.0    16-18     -         ≤.75    -       -     -
nickel       ≤.15     ≤.35    ≤.35    -         ≥99.0     -       -       -     -
wrought iron ≤.035    .05-.10 .075-.15 -        -         -       -       -     .1-.25
"""

NOMINALS = Claim(
    says="What the kit reckons with lies within each standard, where the trade's bars lie; "
    "the certificate of your own bar is better.",
    kind=Kind.OURS,
    holds=("NOMINAL",),
    told=("% of carbon and no nickel", "average .* % carbon"),
)
NOMINAL = """
grade        C     Mn    Si    Cr    Ni    Mo    V     W     P
1018         .18   .75   .20   -     -     -     -     -     -
1075         .75   .55   .20   -     -     -     -     -     -
1080         .80   .75   .20   -     -     -     -     -     -
1084         .84   .75   .20   -     -     -     -     -     -
1095         .95   .40   .20   -     -     -     -     -     -
5160         .60   .87   .25   .80   -     -     -     -     -
52100        1.00  .35   .25   1.45  -     -     -     -     -
15N20        .75   .40   .25   .05   2.00  -     -     -     -
80CrV2       .80   .40   .25   .50   -     -     .20   -     -
L6           .70   .50   .25   .90   1.60  .20   -     -     -
O1           .92   1.20  .30   .50   -     -     -     .50   -
W1           1.00  .25   .25   -     -     -     -     -     -
W2           .95   .25   .25   -     -     -     .20   -     -
304          .05   1.50  .50   18.5  9.0   -     -     -     -
316          .05   1.50  .50   17.0  11.0  2.2   -     -     -
420          .30   .50   .50   13.0  -     -     -     -     -
440C         1.05  .50   .50   17.0  -     .50   -     -     -
nickel       .08   .18   .18   -     99.5  -     -     -     -
wrought iron .03   .07   .10   -     -     -     -     -     .15
"""

# Standard, state of its ranges, density in g/cm³ and where that comes from.
ABOUT = """
grade        | standard | ranges      | g/cm³ | density  | other names
1018         | A29      | published   | 7.85  | usual    | G10180, mild steel, mild
1075         | A29      | published   | 7.85  | usual    | G10750
1080         | A29      | published   | 7.85  | usual    | G10800
1084         | A29      | published   | 7.85  | usual    | G10840
1095         | A29      | published   | 7.84  | between  | G10950
5160         | A29      | published   | 7.85  | usual    | G51600
52100        | A295     | published   | 7.81  | sheets   | G52986, 100Cr6, 1.3505
15N20        | EN10132  | from memory | 7.85  | usual    | 75Ni8, 1.5634
80CrV2       | EN10132  | from memory | 7.85  | usual    | 1.2235
L6           | A681     | published   | 7.86  | handbook | T61206
O1           | A681     | published   | 7.85  | memory   | T31501, 01
W1           | A686     | published   | 7.84  | handbook | T72301
W2           | A686     | published   | 7.84  | as W1    | T72302
304          | A276     | published   | 8.00  | sheets   | S30400, 1.4301
316          | A276     | published   | 8.00  | sheets   | S31600, 1.4401
420          | A276     | published   | 7.73  | sheets   | S42000
440C         | A276     | published   | 7.80  | differ   | S44004, 1.4125
nickel       | B160     | published   | 8.90  | element  | N02200, nickel 200, nickel sheet
wrought iron | WROUGHT  | published   | 7.70  | handbook | iron
"""

ETCHED = Claim(
    says="Makers report how dark each steel comes out of ferric chloride.",
    kind=Kind.PRACTICE,
    holds=("IN_THE_ETCH",),
)
IN_THE_ETCH = """
grade        | in the etch
1018         | grey: little carbon to darken it
1075         | dark, a little less so than 1084
1080         | dark
1084         | dark; the usual partner of 15N20
1095         | dark, a little less so than 1084
5160         | dark grey
52100        | grey: chromium holds the etch back
15N20        | bright: 2 % nickel resists the etch
80CrV2       | dark grey
L6           | bright: nickel and chromium
O1           | darkest: much manganese
W1           | dark grey: little manganese
W2           | dark grey: little manganese
304          | bright: barely etched
316          | bright: barely etched
420          | bright: barely etched
440C         | bright: barely etched
nickel       | brightest: hardly touched
wrought iron | light grey, with threads of slag
"""

STANDARDS = {
    "A29": "ASTM A29/A29M, table of grades (bar; also SAE J403, J404)",
    "A276": "ASTM A276, chemical requirements (stainless bar)",
    "A295": "ASTM A295-98, Table 1 (bearing steel)",
    "A681": "ASTM A681, chemical requirements (alloy tool steel)",
    "A686": "ASTM A686, chemical requirements (carbon tool steel)",
    "B160": "ASTM B160, chemical requirements (nickel rod and bar)",
    "EN10132": "EN 10132-4:2000, spring steel strip (EN 10132 since 2021)",
    "WROUGHT": "Encyclopædia Britannica, 'Iron processing: Wrought iron': an article, "
    "not a standard, of old iron without its slag",
}

DENSITIES = {
    "handbook": "Metals Handbook Desk Edition, 2nd ed., ASM, table of densities",
    "between": "between 7.844 at 0.435 % C and 7.830 at 1.22 % C in the Metals "
    "Handbook Desk Edition, 2nd ed., ASM, table of densities",
    "usual": "customary for steel, within 0.3 % of the Metals Handbook Desk Edition, "
    "2nd ed., ASM: 7.859 at 0.23 % C, 7.830 at 1.22 % C",
    "as W1": "taken as W1, whose base is the same",
    "sheets": "data sheets: 52100 7.81, 304 8.00 (some 7.93), 316 8.00, 420 7.73",
    "differ": "from memory; data sheets differ, 7.6 to 7.8",
    "element": "the element nickel, 8.902 in the package periodictable; UNS N02200 "
    "itself 8.89, from memory",
    "memory": "from memory",
}
