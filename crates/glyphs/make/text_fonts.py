"""Makes the text fonts and the table of their widths, from a variable font.

Usage: python text_fonts.py FONT.ttf FOLDER

Writes regular.ttf and bold.ttf (letters of Latin, Greek and Cyrillic, punctuation; no hints and
no layout tables) and prints the Rust table of their advances. `cargo xtask glyphs` calls this.
"""

import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

RANGES = [(0x20, 0x7E), (0xA0, 0x17F), (0x192, 0x192), (0x1A0, 0x1A1), (0x1AF, 0x1B0),
          (0x1CD, 0x1DC), (0x1E6, 0x1EB), (0x1F8, 0x21B), (0x2C6, 0x2C7), (0x2D8, 0x2DD),
          (0x300, 0x304), (0x306, 0x30C), (0x323, 0x323), (0x327, 0x328),
          (0x384, 0x3CE), (0x400, 0x45F), (0x490, 0x491), (0x1E00, 0x1EF9),
          (0x2010, 0x2015), (0x2018, 0x201E), (0x2020, 0x2022), (0x2026, 0x2026),
          (0x2030, 0x2030), (0x2032, 0x2033), (0x2039, 0x203A), (0x2044, 0x2044),
          (0x20AC, 0x20AC), (0x2116, 0x2116), (0x2122, 0x2122), (0x2190, 0x2193),
          (0x2212, 0x2212)]


def face(source, weight):
    font = instantiateVariableFont(TTFont(source), {"wght": weight, "wdth": 100})
    options = Options()
    options.layout_features = []
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "STAT", "DSIG", "gasp"]
    options.hinting = False
    options.notdef_outline = True
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[c for a, b in RANGES for c in range(a, b + 1)])
    subsetter.subset(font)
    # The same bytes whenever it is made.
    font.recalcTimestamp = False
    font["head"].modified = font["head"].created
    return font


def main():
    source, folder = sys.argv[1], Path(sys.argv[2])
    faces = [(name, face(source, weight)) for name, weight in [("regular", 400), ("bold", 700)]]
    for name, font in faces:
        font.save(folder / f"{name}.ttf")
    regular, bold = (font for _, font in faces)
    assert regular["head"].unitsPerEm == bold["head"].unitsPerEm == 1000
    maps = regular.getBestCmap(), bold.getBestCmap()
    assert maps[0].keys() == maps[1].keys()
    runs = []
    for code in sorted(maps[0]):
        if not runs or runs[-1][-1] != code - 1:
            runs.append([])
        runs[-1].append(code)
    out = [
        "//! Advances of the text fonts. Made by `cargo xtask glyphs`; do not edit.\n\n",
        "use crate::text::Run;\n\n",
        "/// Neighbouring characters with their advances in thousandths of the font's size.\n",
        f"pub(crate) const RUNS: [Run; {len(runs)}] = [\n",
    ]
    for run in runs:
        pairs = [
            f"({regular['hmtx'][maps[0][c]][0]}, {bold['hmtx'][maps[1][c]][0]})" for c in run
        ]
        out.append(f"    Run {{ first: {run[0]}, widths: &[{', '.join(pairs)}] }},\n")
    out.append("];\n\n")
    for name, of, sign in [("ASCENT", "yMax", 1), ("DESCENT", "yMin", -1)]:
        # Over plain capitals with accents, not over the whole font.
        tall = max(
            sign * getattr(font["glyf"][names[c]], of)
            for font, names in ((regular, maps[0]), (bold, maps[1]))
            for c in list(range(0x20, 0x7F)) + list(range(0xC0, 0x180))
            if c in names and hasattr(font["glyf"][names[c]], of)
        )
        out.append(f"pub(crate) const {name}: i32 = {tall};\n")
    sys.stdout.write("".join(out))


main()
