// The same answers everywhere: the real command, the package in Node, and the package in Chromium,
// over all tunes of the files that are named. `node same_answers.mjs PACKAGE COMMAND LIST`, where
// LIST is a file with a name a line. Prints tunes, and how long each took on one core.

import { spawnSync } from "node:child_process";
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { isDeepStrictEqual } from "node:util";

const [folder, command, list, ...more] = process.argv.slice(2);
const files = (await readFile(list, "utf8")).split("\n").filter(Boolean);
const withBrowser = !more.includes("--node-only");
const KINDS = { ".js": "text/javascript", ".wasm": "application/wasm" };

/** An answer without the name of its file, which each edge gives in its own way. */
const plain = (answer) => ({ ...answer, source: "" });

/** Ends with a word on the first difference. */
function same(what, wanted, found, name) {
  if (wanted.length !== found.length) fail(`${what}: ${found.length} answers for ${wanted.length} in ${name}`);
  for (const [i, answer] of wanted.entries()) {
    const other = plain(found[i]);
    if (isDeepStrictEqual(answer, other)) continue;
    const field = Object.keys({ ...answer, ...other }).find((key) => !isDeepStrictEqual(answer[key], other[key]));
    const [a, b] = [answer, other].map((it) => JSON.stringify(it[field])?.slice(0, 400));
    fail(`${what}: ${name}, tune ${i + 1} (${answer.title}): ${field} is ${b}, and the command says ${a}`);
  }
}

function fail(why) {
  console.error(`error: ${why}`);
  process.exit(1);
}

// Native: all files in one run, on one core; each line says whose tune it is.
const begun = performance.now();
const wanted = new Map(files.map((file) => [file, []]));
for (let at = 0; at < files.length; at += 500) {
  const words = ["find", "--json", ...files.slice(at, at + 500)];
  const run = spawnSync(command, words, {
    encoding: "utf8",
    maxBuffer: 1 << 30,
    env: { ...process.env, RAYON_NUM_THREADS: "1" },
  });
  if (![0, 1].includes(run.status)) fail(`${command}: ${run.status} ${run.stderr.slice(-400)}`);
  for (const line of run.stdout.split("\n").filter(Boolean)) {
    const answer = JSON.parse(line);
    wanted.get(answer.source).push(plain(answer));
  }
}
const native = performance.now() - begun;
const tunes = [...wanted.values()].reduce((sum, answers) => sum + answers.length, 0);
if (tunes === 0) fail("no tune was answered");

const texts = new Map();
for (const file of files) {
  const bytes = await readFile(file);
  // As the command reads them: UTF-8, or else Latin-1.
  let text;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    texts.set(file, text);
  } catch {
    // The package is given text, not bytes: what the command says of the encoding has no place there.
    wanted.delete(file);
  }
}

const node = await import(pathToFileURL(path.join(folder, "node/modewright.js")));
let inNode = 0;
let compared = 0;
for (const [file, text] of texts) {
  const from = performance.now();
  const answers = node.findAll(text);
  inNode += performance.now() - from;
  compared += answers.length;
  same("Node", wanted.get(file), answers, path.basename(file));
}
const seconds = (ms) => (ms / 1000).toFixed(2);
console.log(`${compared} tunes the same in Node; ${tunes} by the command in ${seconds(native)} s, in Node in ${seconds(inNode)} s, ${(inNode / native).toFixed(2)} times as long`);

if (withBrowser) {
  const { chromium } = await import("playwright-core");
  const server = createServer(async (request, response) => {
    const name = path.basename(new URL(request.url, "http://local").pathname);
    try {
      const body = name === "" ? "<!doctype html><title>x</title>" : await readFile(path.join(folder, name));
      response.writeHead(200, { "Content-Type": KINDS[path.extname(name)] ?? "text/html" }).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  const places = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const { existsSync } = await import("node:fs");
  const browser = await chromium.launch({ executablePath: places.find((p) => p && existsSync(p)), args: ["--no-sandbox"] });
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
  await page.evaluate(async () => {
    const module = await import("/modewright.js");
    await module.default();
    globalThis.engine = module;
  });
  let inBrowser = 0;
  let count = 0;
  for (const [file, text] of texts) {
    const { answers, took } = await page.evaluate((text) => {
      const from = performance.now();
      const answers = globalThis.engine.findAll(text);
      return { answers: JSON.stringify(answers), took: performance.now() - from };
    }, text);
    inBrowser += took;
    const found = JSON.parse(answers);
    count += found.length;
    same("Chromium", wanted.get(file), found, path.basename(file));
  }
  await browser.close();
  server.close();
  console.log(`${count} tunes the same in Chromium, in ${seconds(inBrowser)} s`);
}
