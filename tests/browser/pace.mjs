// How long a pass of reading and finding takes in Node: `node pace.mjs FOLDER FILE`, where FOLDER
// holds the program `pace.mjs` with its WASM. Prints the milliseconds of the quickest pass: what
// else a busy machine does only adds to it.

import { readFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [folder, file] = process.argv.slice(2);
const program = await import(pathToFileURL(path.resolve(folder, "pace.mjs")));
program.initSync({ module: readFileSync(path.join(folder, "pace_bg.wasm")) });
const text = readFileSync(file, "utf8");
const time = (count) => {
  const from = performance.now();
  if (program.passes(text, count) === 0) throw new Error("no notes");
  return performance.now() - from;
};

// Splitting the file and handing it over are no part of a pass.
const SECONDS = 3;
let whole = Infinity;
let bare = Infinity;
const from = performance.now();
while (performance.now() - from < SECONDS * 1000) {
  whole = Math.min(whole, time(2));
  bare = Math.min(bare, time(1));
}
console.log((whole - bare).toFixed(3));
