// Wrong uses: each line after a mark must fail to compile.

import { count, find, fit, scale } from "modewright";
import type { Mode } from "modewright";
import { fingering, transpose } from "modewright/instruments";
import { sheetSvg } from "modewright/print";
import { readFile } from "modewright/files";
import { play } from "modewright/sound";

// @ts-expect-error A text is needed.
find();
// @ts-expect-error A text, not a number.
find(7);
// @ts-expect-error The option is `metre`.
find("D E F", { meter: "6/8" });
// @ts-expect-error A metre is a text.
find("D E F", { metre: 6 });
// @ts-expect-error There may be no home.
const home: string = find("D E F").home;
// @ts-expect-error There is no such mode.
const mode: Mode = "major";
// @ts-expect-error There is no such verdict.
if (find("D E F").verdict === "sure") console.log();
// @ts-expect-error A list, one for each instrument.
fit("D E F", { on: "fiddle" }).transpositions;
// @ts-expect-error An instrument is needed.
fit("D E F", {});
// @ts-expect-error Instruments of your own are for the other entry.
fit("D E F", { on: "mine", own: {} });
// @ts-expect-error Options are needed.
transpose("D E F");
// @ts-expect-error One instrument, not several.
fingering("D E F", { on: ["fiddle", "flute"] });
// @ts-expect-error No such way of counting.
count("D E F", { compound: "trad" });
// @ts-expect-error No such row.
sheetSvg("D E F", { rows: ["chords"] });
// @ts-expect-error Bytes, not a text.
readFile("D E F");
// @ts-expect-error No such timbre.
play("D E F", { timbre: "bell" });
// @ts-expect-error A degree is a number.
const degree: string = scale("E dorian").degrees[0]!.degree;
console.log(home, mode, degree);
