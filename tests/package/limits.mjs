// At every limit of the shared list and one past it, through the installed package: below it
// answers and does not tell the limit's code, past it the code is told, as a problem of the answer
// or as a refusal, and nothing hangs. Run in the project that the package was installed into, as
// `node limits.mjs LIMITS`.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { find } from "modewright";
import { checkInstruments } from "modewright/instruments";
import { readFile } from "modewright/files";
import { sheetSvg } from "modewright/print";
import { wav } from "modewright/sound";

const { cases } = JSON.parse(readFileSync(process.argv[2], "utf8"));
/** Ten times what the slowest takes on a busy machine. */
const MOST_SECONDS = 60;

/** What a call tells: the codes of its problems, those of its tunes, or that of its refusal. */
function codes(call) {
  const begun = performance.now();
  let told;
  try {
    const answer = call();
    const problems = answer.tunes ? answer.tunes.flatMap((tune) => tune.problems) : answer.problems;
    told = { answers: true, codes: (problems ?? []).map(({ code }) => code) };
  } catch (error) {
    assert.equal(error.name, "ModewrightError", error.stack);
    assert.ok(error.message && error.hint, error.code);
    told = { answers: false, codes: [error.code] };
  }
  const seconds = (performance.now() - begun) / 1000;
  assert.ok(seconds < MOST_SECONDS, `${seconds} s`);
  return { ...told, seconds };
}

let slowest = { seconds: 0, id: "" };
let walked = 0;
function walk(id, code, call, at, past) {
  for (const [input, isPast] of [[at, false], [past, true]]) {
    const { answers, codes: told, seconds } = codes(() => call(input));
    if (seconds > slowest.seconds) slowest = { seconds, id };
    assert.equal(told.includes(code), isPast, `${id}, ${isPast ? "past" : "at"}: ${told}`);
    assert.ok(answers || isPast, `${id}: no answer at the limit`);
  }
  walked += 1;
}

for (const { id, code, head, piece, tail, at, past } of cases) {
  const text = (times) => head + piece.repeat(times) + tail;
  if (head.startsWith("<?xml")) {
    const bytes = (times) => new TextEncoder().encode(text(times));
    walk(id, code, (input) => readFile(input), bytes(at), bytes(past));
  } else {
    walk(id, code, (input) => find(input), text(at), text(past));
  }
}

// What no text for `find` reaches.
const instrument = '{ "format": 1, "id": "a", "name": "a", "range": ["A3", "D5"] }';
const long = (bytes) => instrument.padEnd(bytes, " ");
const sizes = (count) => {
  const all = Array.from({ length: count }, (_, i) => `{"id": "a${i}"}`).join(",");
  return `{ "format": 1, "name": "a", "range": ["A3", "D5"], "sizes": [${all}] }`;
};
walk("instrument-bytes", "file-too-long", (text) => checkInstruments(text), long(1 << 20), long((1 << 20) + 1));
walk("instrument-sizes", "too-many-sizes", (text) => checkInstruments(text), sizes(64), sizes(65));
const eight = (notes) => `X:1\nL:1/8\nK:C\n${"CDEFGABc|\n".repeat(notes / 8)}|]\n`;
walk("sheet-notes", "sheet-too-large", (text) => ({ svg: sheetSvg(text) }), eight(20_000), eight(20_008));
const slow = (bars) => `X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\n${"C4|".repeat(bars)}`;
walk("sound-minutes", "sound-too-long", (text) => ({ wav: wav(text) }), slow(224), slow(226));
// A file that is moved has its limit where the command reads it: the package is handed a text.

console.log(`${walked} limits kept and told, ${slowest.seconds.toFixed(1)} s at most (${slowest.id})`);
