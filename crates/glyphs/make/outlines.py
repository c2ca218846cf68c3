"""Makes src/outlines.rs: outlines and sizes of music signs, from a SMuFL font.

Usage: python outlines.py FONT.otf METADATA.json > outlines.rs

The font's em is four staff spaces, 1000 units; the numbers written are thousandths of a staff
space, y down, so every font unit becomes 4. `cargo xtask glyphs` calls this.
"""

import json
import math
import sys

from fontTools.pens.basePen import BasePen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

# Name here, name in SMuFL, code point in SMuFL.
SIGNS = """
TrebleClef gClef E050
TrebleClefLow gClef8vb E052
TrebleClefHigh gClef8va E053
AltoClef cClef E05C
BassClef fClef E062
BassClefLow fClef8vb E064
BassClefHigh fClef8va E065
DrumClef unpitchedPercussionClef1 E069
Time0 timeSig0 E080
Time1 timeSig1 E081
Time2 timeSig2 E082
Time3 timeSig3 E083
Time4 timeSig4 E084
Time5 timeSig5 E085
Time6 timeSig6 E086
Time7 timeSig7 E087
Time8 timeSig8 E088
Time9 timeSig9 E089
TimeCommon timeSigCommon E08A
TimeCut timeSigCutCommon E08B
TimePlus timeSigPlus E08C
HeadBreve noteheadDoubleWhole E0A0
HeadSemibreve noteheadWhole E0A2
HeadMinim noteheadHalf E0A3
HeadBlack noteheadBlack E0A4
FlagQuaverUp flag8thUp E240
FlagQuaverDown flag8thDown E241
Flag16Up flag16thUp E242
Flag16Down flag16thDown E243
Flag32Up flag32ndUp E244
Flag32Down flag32ndDown E245
Flag64Up flag64thUp E246
Flag64Down flag64thDown E247
Flag128Up flag128thUp E248
Flag128Down flag128thDown E249
Dot augmentationDot E1E7
RepeatDot repeatDot E044
Flat accidentalFlat E260
Natural accidentalNatural E261
Sharp accidentalSharp E262
DoubleSharp accidentalDoubleSharp E263
DoubleFlat accidentalDoubleFlat E264
RestBreve restDoubleWhole E4E2
RestSemibreve restWhole E4E3
RestMinim restHalf E4E4
RestCrotchet restQuarter E4E5
RestQuaver rest8th E4E6
Rest16 rest16th E4E7
Rest32 rest32nd E4E8
Rest64 rest64th E4E9
Rest128 rest128th E4EA
Segno segno E047
Coda coda E048
AccentAbove articAccentAbove E4A0
AccentBelow articAccentBelow E4A1
StaccatoAbove articStaccatoAbove E4A2
TenutoAbove articTenutoAbove E4A4
WedgeAbove articStaccatissimoWedgeAbove E4A8
WedgeBelow articStaccatissimoWedgeBelow E4A9
MarcatoAbove articMarcatoAbove E4AC
FermataAbove fermataAbove E4C0
FermataBelow fermataBelow E4C1
BreathComma breathMarkComma E4CE
Trill ornamentTrill E566
Turn ornamentTurn E567
TurnInverted ornamentTurnInverted E568
MordentUpper ornamentShortTrill E56C
MordentLower ornamentMordent E56D
DownBow stringsDownBow E610
UpBow stringsUpBow E612
Tuplet0 tuplet0 E880
Tuplet1 tuplet1 E881
Tuplet2 tuplet2 E882
Tuplet3 tuplet3 E883
Tuplet4 tuplet4 E884
Tuplet5 tuplet5 E885
Tuplet6 tuplet6 E886
Tuplet7 tuplet7 E887
Tuplet8 tuplet8 E888
Tuplet9 tuplet9 E889
Piano dynamicPiano E520
Mezzo dynamicMezzo E521
Forte dynamicForte E522
BeatSemibreve metNoteWhole ECA2
BeatMinim metNoteHalfUp ECA3
BeatCrotchet metNoteQuarterUp ECA5
BeatQuaver metNote8thUp ECA7
Beat16 metNote16thUp ECA9
BeatDot metAugmentationDot ECB7
"""

UNIT = 4


class PathPen(BasePen):
    """Writes a path of relative steps, as SVG spells them, in whole numbers."""

    def __init__(self, glyphs):
        super().__init__(glyphs)
        self.parts = []
        self.here = (0, 0)

    def steps(self, letter, points):
        numbers = []
        for x, y in points:
            numbers += [x - self.here[0], y - self.here[1]]
        self.here = points[-1]
        text = letter
        for i, number in enumerate(numbers):
            text += ("" if i == 0 or number < 0 else " ") + str(number)
        self.parts.append(text)

    @staticmethod
    def place(point):
        return round(point[0]) * UNIT, -round(point[1]) * UNIT

    def _moveTo(self, point):
        self.steps("m", [self.place(point)])
        self.start = self.here

    def _lineTo(self, point):
        if self.place(point) != self.here:
            self.steps("l", [self.place(point)])

    def _curveToOne(self, a, b, c):
        self.steps("c", [self.place(a), self.place(b), self.place(c)])

    def _closePath(self):
        self.parts.append("z")
        self.here = self.start


def main():
    font = TTFont(sys.argv[1])
    about = json.load(open(sys.argv[2]))
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    rows, variants = [], []
    for line in SIGNS.split("\n"):
        if not line:
            continue
        ours, theirs, code = line.split()
        name = names[int(code, 16)]
        pen, bounds = PathPen(glyphs), BoundsPen(glyphs)
        glyphs[name].draw(pen)
        glyphs[name].draw(bounds)
        west, south, east, north = bounds.bounds
        box = [math.floor(west), -math.ceil(north), math.ceil(east), -math.floor(south)]
        box = [side * UNIT for side in box]
        anchors = about["glyphsWithAnchors"].get(theirs, {})
        up, down = anchors.get("stemUpSE"), anchors.get("stemDownNW")
        def stem(anchor):
            if anchor is None:
                return "None"
            return f"Some(({round(anchor[0] * 1000)}, {-round(anchor[1] * 1000)}))"
        variants.append((ours, theirs, code))
        rows.append(
            "    Outline {\n"
            f"        advance: {glyphs[name].width * UNIT},\n"
            f"        bounds: [{', '.join(map(str, box))}],\n"
            f"        stem_up: {stem(up)},\n"
            f"        stem_down: {stem(down)},\n"
            f'        path: packed!("{"".join(pen.parts)}"),\n'
            "    },\n"
        )
    out = [
        "//! Outlines of music signs. Made by `cargo xtask glyphs`; do not edit.\n",
        "//!\n",
        "//! The outlines are licensed under the SIL Open Font License 1.1: see\n",
        "//! `LICENSE-OUTLINES.txt` beside the manifest of this crate.\n\n",
        "use crate::Outline;\nuse crate::path::packed;\n\n",
        "/// A music sign. The second name is the one that SMuFL, the standard layout of music\n",
        "/// fonts, gives it.\n",
        "#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]\n",
        "pub enum Glyph {\n",
    ]
    for ours, theirs, code in variants:
        out.append(f"    /// `{theirs}`, U+{code}.\n    {ours},\n")
    out.append("}\n\nimpl Glyph {\n    /// Every sign, in the order of its declaration.\n")
    out.append(f"    pub const ALL: [Self; {len(variants)}] = [\n")
    out += [f"        Self::{ours},\n" for ours, _, _ in variants]
    out.append("    ];\n}\n\n")
    out.append(f"pub(crate) const OUTLINES: [Outline; {len(rows)}] = [\n")
    out += rows
    out.append("];\n")
    sys.stdout.write("".join(out))


main()
