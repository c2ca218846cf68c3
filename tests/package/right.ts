// Right uses: these must compile as they stand.

import start, { find, findAll, fit, instrumentList, scale } from "modewright";
import type { FindAnswer, FitAnswer, Mode, ModewrightError } from "modewright";
import { fingering, fit as fitOwn, instruments, transpose } from "modewright/instruments";
import { sheetPdf, sheetSvg, walk } from "modewright/print";
import { readFile, toMidi } from "modewright/files";
import { play } from "modewright/sound";

await start();
const answer: FindAnswer = find("D E F# G", { metre: "6/8", pickup: "1/8", tune: 1 });
const mode: Mode | null = answer.mode;
const chance: number = answer.chance ?? 0;
const bar: number | undefined = answer.lowest?.bar;
const verdict: "clear" | "open" | "doubtful" | "none" = answer.verdict;
const all: FindAnswer[] = findAll("D E F# G");
const fits: FitAnswer[] = fit("D E F", { on: ["fiddle", "flute"] });
const mine: FitAnswer[] = fitOwn("D E F", { own: { format: 1 } });
const families: string[] = instrumentList().instruments.map((it) => it.family);
const fretted: string | null | undefined = fingering("D E F", { on: "guitar" }).notes[0]?.way?.fret;
const names: string[] = instruments().instruments.map((it) => it.name);
const homes: string[] = scale("E dorian").relatives.map((it) => it.home);
const moved: string = transpose("D E F", { by: -2 }).text;
const svg: string = sheetSvg("D E F", { rows: ["count", "note"], paper: "phone" });
const bytes: Uint8Array = sheetPdf("D E F").bytes;
const heading: string | undefined = walk("D E F").sections[0]?.heading;
const abc: string[] = readFile(toMidi("D E F")).tunes.map((it) => it.abc);
const samples: Float32Array = play("D E F", { timbre: "reed", tempo: 80 }).samples;
try {
  find("D E F", { home: "H" });
} catch (error) {
  const { code, hint, line, column, option } = error as ModewrightError;
  const said: [string, string, number | null, number | null, string | null] = [code, hint, line, column, option];
  console.log(said);
}
console.log(mode, chance, bar, verdict, all, fits, mine, families, fretted, names, homes, moved, svg, bytes, heading, abc, samples);
