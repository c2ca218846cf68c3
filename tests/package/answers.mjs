// Every call of the shared fixture, asked of the installed package: what it gives is what the
// engine gives, to the digit, and what it refuses it refuses with all fields. Run in the project
// that the package was installed into, as `node answers.mjs FIXTURE`.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import * as main from "modewright";
import * as instruments from "modewright/instruments";
import * as print from "modewright/print";
import * as files from "modewright/files";
import * as sound from "modewright/sound";

const fixture = JSON.parse(readFileSync(process.argv[2], "utf8"));
// Both entries have `fit`; only that of instruments takes instruments of one's own.
const calls = { ...sound, ...files, ...print, ...instruments, ...main };
const entry = (call, args) => (call === "fit" && args[1]?.own !== undefined ? instruments.fit : calls[call]);

/** Bytes by their length and their FNV-1a mark of 64 bits. */
function marked(bytes) {
  let hash = 0xcbf29ce484222325n;
  for (const byte of bytes) hash = ((hash ^ BigInt(byte)) * 0x100000001b3n) & 0xffffffffffffffffn;
  return { bytes: bytes.length, fnv: hash.toString(16).padStart(16, "0") };
}

/** An answer as the fixture tells it: bytes and long texts by their marks. */
function told(call, answer) {
  if (answer instanceof Uint8Array) return marked(answer);
  if (answer instanceof Float32Array) {
    return marked(new Uint8Array(answer.buffer, answer.byteOffset, answer.byteLength));
  }
  if (call === "toAbc") return answer;
  if (typeof answer === "string") return marked(new TextEncoder().encode(answer));
  for (const field of ["bytes", "samples"]) {
    if (answer[field]) return { ...answer, [field]: told(call, answer[field]) };
  }
  return answer;
}

let given = 0;
let refused = 0;
for (const { call, args, gives, refuses } of fixture.calls) {
  const said = `${call} ${JSON.stringify(args)}`;
  let answer;
  let error;
  try {
    answer = entry(call, args)(...args);
  } catch (why) {
    error = why;
  }
  if (refuses) {
    assert.ok(error instanceof Error, `${said} was not refused`);
    const { name, code, message, hint, option, line, column } = error;
    assert.equal(name, "ModewrightError", said);
    assert.deepEqual({ code, message, hint, option, line, column }, refuses, said);
    refused += 1;
    continue;
  }
  if (error) throw error;
  assert.deepEqual(told(call, answer), gives, said);
  // Plain: what JSON would bring through, unless it holds bytes.
  if (!told(call, answer).fnv && !answer.bytes && !answer.samples) {
    assert.deepEqual(JSON.parse(JSON.stringify(answer)), answer, said);
  }
  given += 1;
}

// A file of every kind comes back as the tune that it was made of.
const abc = files.toAbc("D E F# G | A B c# d", { metre: "4/4" });
for (const [kind, bytes] of [
  ["abc", new TextEncoder().encode(abc)],
  ["musicxml", new TextEncoder().encode(files.toMusicXml(abc))],
  ["musicxml", files.toMxl(abc)],
  ["midi", files.toMidi(abc)],
]) {
  const file = files.readFile(bytes, { source: "tune" });
  assert.equal(file.kind, kind);
  assert.equal(file.tunes.length, 1);
  const notes = (text) => main.read(text).events.map((event) => event.pitch);
  assert.deepEqual(notes(file.tunes[0].abc), notes(abc));
  assert.deepEqual(files.readFile(bytes.slice().buffer, { source: "tune" }), file);
}

// Misuse is refused with words, never with a crash.
for (const [why, call] of [
  ["wrong-kind", () => main.find(7)],
  ["wrong-kind", () => main.find("D E F", "6/8")],
  ["wrong-kind", () => main.find("D E F", { metre: 6 })],
  ["wrong-kind", () => main.find("D E F", { tune: 1.5 })],
  ["wrong-kind", () => main.count("D E F", { full: "yes" })],
  ["wrong-kind", () => main.fit("D E F", { on: [1] })],
  ["wrong-kind", () => files.readFile("text")],
  ["wrong-kind", () => sound.play("D E F", { tempo: 0 })],
  ["unknown-option", () => main.find("D E F", { meter: "6/8" })],
  ["no-instrument", () => main.fit("D E F", {})],
  ["no-instrument", () => instruments.fit("D E F", {})],
  ["unknown-option", () => main.fit("D E F", { own: {} })],
  ["no-instrument", () => instruments.fingering("D E F")],
  ["no-instrument", () => instruments.transpose("D E F")],
  ["not-a-choice", () => print.sheetSvg("D E F", { rows: ["chords"] })],
  ["not-a-choice", () => sound.play("D E F", { timbre: "bell" })],
  ["other-file-type", () => files.readFile(new TextEncoder().encode("%PDF-1.7\n"))],
]) {
  assert.throws(call, (error) => {
    assert.equal(error.code, why, String(call));
    assert.ok(error instanceof Error && error.message && error.hint, String(call));
    return true;
  });
}

// An instrument may be an object as well as a text.
assert.deepEqual(instruments.fit("D E F", { on: "fiddle" }), main.fit("D E F", { on: "fiddle" }));
assert.deepEqual(instruments.instrumentList(), main.instrumentList());
const own = { format: 1, id: "deck-pipe", name: "deck pipe", range: ["D4", "B5"] };
assert.equal(instruments.checkInstruments(own).instruments[0].notes.length, 22);
assert.equal(instruments.fit("D E F", { own })[0].instrument.id, "deck-pipe");
assert.ok(instruments.instruments().instruments.length > 40);

console.log(`${given} answers and ${refused} refusals are those of the engine`);
