// The packed package, installed as its users install it: in Node, with TypeScript, under a bundler
// and in a browser. `cargo xtask test` builds it first. The names of checks as arguments run those
// alone.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { createServer } from "node:http";
import { existsSync } from "node:fs";
import { cp, mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.resolve(here, "../..");
const target = process.env.CARGO_TARGET_DIR ?? path.join(root, "target");
const npm = path.join(root, "dist/npm");
const fixture = path.join(root, "tests/fixtures/answers.json");
const bin = (name) => path.join(here, "node_modules/.bin", name);

function run(folder, program, ...words) {
  return execFileSync(program, words, { cwd: folder, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
}

/** A fresh project with the packed package installed and some files of ours. */
async function project(name, files) {
  const folder = path.join(target, "package", name);
  await rm(folder, { recursive: true, force: true });
  await mkdir(folder, { recursive: true });
  await writeFile(path.join(folder, "package.json"), JSON.stringify({ name, private: true, type: "module" }));
  const packed = (await readdir(npm)).filter((file) => file.endsWith(".tgz"));
  assert.equal(packed.length, 1, `packed packages in dist/npm: ${packed}`);
  run(folder, "npm", "install", "--offline", "--no-audit", "--no-fund", path.join(npm, packed[0]));
  for (const file of files) await cp(path.join(here, file), path.join(folder, file));
  return folder;
}

const checks = {
  async size() {
    const budgets = JSON.parse(await readFile(path.join(here, "budgets.json"), "utf8"));
    const entries = (await readdir(path.join(npm, "package"))).filter((file) => file.endsWith(".wasm"));
    const said = [];
    for (const file of entries) {
      const name = file.replace("_bg.wasm", "");
      const bytes = await readFile(path.join(npm, "package", file));
      const small = brotliCompressSync(bytes, {
        params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length },
      });
      const kib = small.length / 1024;
      said.push(`${name} ${kib.toFixed(1)} of ${budgets.kib_brotli[name]} KiB`);
      assert.ok(kib <= budgets.kib_brotli[name], `the budget: ${said.at(-1)}`);
    }
    assert.equal(entries.length, Object.keys(budgets.kib_brotli).length);
    return said.join(", ");
  },

  async node() {
    const folder = await project("node", ["answers.mjs"]);
    return run(folder, process.execPath, "answers.mjs", fixture).trim();
  },

  async limits() {
    const folder = await project("limits", ["limits.mjs"]);
    return run(folder, process.execPath, "limits.mjs", path.join(root, "tests/fixtures/limits.json")).trim();
  },

  /** The uses that its README shows, each run as it stands, in Node with a page and a file for show. */
  async readme() {
    const folder = await project("readme", []);
    const readme = await readFile(path.join(folder, "node_modules/modewright/README.md"), "utf8");
    const uses = [...readme.matchAll(/^```js\n(.*?)^```$/gms)].map(([, use]) => use);
    assert.equal(uses.length, 5);
    const around = `globalThis.document = { body: { set innerHTML(svg) { console.log(svg.length); } } };
      globalThis.file = { name: "tune.abc", arrayBuffer: async () => new TextEncoder().encode("X:1\\nK:D\\nDEF|\\n").buffer };`;
    await writeFile(path.join(folder, "around.mjs"), around);
    for (const [i, use] of uses.entries()) {
      const file = `use${i + 1}.mjs`;
      await writeFile(path.join(folder, file), `import "./around.mjs";\n${use}`);
      const said = run(folder, process.execPath, file).trim();
      assert.ok(said.length > 3 && !said.includes("undefined"), `use ${i + 1} says: ${said}`);
    }
    return `${uses.length} uses run`;
  },

  // The types that lie beside the elements' script, as a page in TypeScript uses them.
  async elements() {
    const folder = path.join(target, "package", "elements");
    await rm(folder, { recursive: true, force: true });
    await mkdir(folder, { recursive: true });
    await cp(path.join(here, "elements.ts"), path.join(folder, "elements.ts"));
    await cp(path.join(root, "dist/elements/modewright-elements.d.ts"), path.join(folder, "modewright-elements.d.ts"));
    for (const module of ["nodenext", "esnext"]) {
      const resolved = module === "esnext" ? ["--moduleResolution", "bundler"] : [];
      const words = ["--strict", "--noEmit", "--target", "es2022", "--lib", "es2022,dom,dom.iterable", "--types", "", "--module", module];
      run(folder, bin("tsc"), ...words, ...resolved, "elements.ts");
    }
    const wrong = (await readFile(path.join(here, "elements.ts"), "utf8")).match(/@ts-expect-error/g).length;
    return `${wrong} wrong uses refused`;
  },

  async types() {
    const folder = await project("types", ["right.ts", "wrong.ts"]);
    // Every real answer must have the type that it is said to have, with no field too many.
    const { calls } = JSON.parse(await readFile(fixture, "utf8"));
    const kinds = {
      find: "FindAnswer", findAll: "FindAnswer[]", read: "ReadAnswer", scale: "ScaleAnswer",
      count: "CountAnswer", transpose: "TransposeAnswer", fit: "FitAnswer[]",
      fingering: "FingeringAnswer", instruments: "InstrumentsAnswer",
      checkInstruments: "InstrumentsAnswer", walk: "WalkAnswer",
      instrumentList: "InstrumentListAnswer", whoPlays: "WhoAnswer", instrumentPicture: "PictureAnswer",
    };
    const used = [...new Set(Object.values(kinds).map((kind) => kind.replace("[]", "")))];
    const lines = calls
      .filter(({ call, gives }) => gives && kinds[call])
      .map(({ call, gives }, i) => `export const answer${i}: ${kinds[call]} = ${JSON.stringify(gives)};`);
    assert.ok(lines.length > 20);
    const imports = `import type { ${used.join(", ")} } from "modewright";`;
    await writeFile(path.join(folder, "given.ts"), `${[imports, ...lines].join("\n")}\n`);
    for (const [module, resolution] of [["nodenext", "nodenext"], ["esnext", "bundler"]]) {
      const options = {
        strict: true, noEmit: true, noUncheckedIndexedAccess: true, exactOptionalPropertyTypes: true,
        target: "es2022", lib: ["es2022", "dom"], types: [], module, moduleResolution: resolution,
      };
      await writeFile(
        path.join(folder, "tsconfig.json"),
        JSON.stringify({ compilerOptions: options, include: ["*.ts"] }),
      );
      run(folder, bin("tsc"), "--project", "tsconfig.json");
    }
    const wrong = (await readFile(path.join(here, "wrong.ts"), "utf8")).match(/@ts-expect-error/g).length;
    return `${lines.length} answers have their types, ${wrong} wrong uses are refused`;
  },

  async bundler() {
    const folder = await project("bundler", ["app.js"]);
    const page = '<!doctype html><html lang="en"><title>waiting</title><script type="module" src="/app.js"></script></html>';
    await writeFile(path.join(folder, "index.html"), page);
    run(folder, bin("vite"), "build", "--base", "./", "--logLevel", "warn");
    const assets = await readdir(path.join(folder, "dist/assets"));
    const wasm = assets.filter((file) => file.endsWith(".wasm"));
    assert.equal(wasm.length, 2, `each entry brings its WASM: ${assets}`);
    const title = await opened(path.join(folder, "dist"));
    assert.match(title, /^E dorian, \d+ notes$/);
    return `built, and in a browser: ${title}`;
  },
};

/** The title of a built page once its program has run. */
async function opened(folder) {
  const kinds = { ".html": "text/html", ".js": "text/javascript", ".wasm": "application/wasm" };
  const server = createServer(async (request, response) => {
    const name = new URL(request.url, "http://local").pathname.slice(1) || "index.html";
    try {
      if (name.includes("..")) throw new Error("outside");
      const body = await readFile(path.join(folder, name));
      response.writeHead(200, { "Content-Type": kinds[path.extname(name)] ?? "application/octet-stream" });
      response.end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  const known = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const { chromium } = await import("playwright-core");
  const browser = await chromium.launch({
    executablePath: known.find((file) => file && existsSync(file)),
    args: ["--no-sandbox"],
  });
  try {
    const page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${server.address().port}/`);
    await page.waitForFunction(() => document.title !== "waiting", undefined, { timeout: 60_000 });
    return await page.title();
  } finally {
    await browser.close();
    server.close();
  }
}

const asked = process.argv.slice(2);
let failed = 0;
for (const [name, check] of Object.entries(checks)) {
  if (asked.length && !asked.includes(name)) continue;
  try {
    console.log(`ok    ${name}: ${await check()}`);
  } catch (error) {
    failed += 1;
    console.log(`fails ${name}: ${error.message}\n${error.stdout ?? ""}${error.stderr ?? ""}`);
  }
}
process.exit(failed ? 1 : 0);
