// What the checks stand on: the built page behind a small server, Chromium, and a list of
// checks that are run and reported one by one.

import { createServer } from "node:http";
import { existsSync } from "node:fs";
import { mkdir, readFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, crc32 } from "node:zlib";
import { chromium } from "playwright-core";

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
export const dist = path.join(root, "dist");
export const target = process.env.CARGO_TARGET_DIR ?? path.join(root, "target");
export const pictures = path.join(target, "browser");

const KINDS = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
  ".abc": "text/plain; charset=utf-8",
};

/**
 * Serves dist/ under a folder, so that addresses must be relative. A file in `changed` is served
 * with those words instead; `null` is a file that is gone. A `packed` server sends brotli, as hosts
 * of pages do.
 */
export async function serve(changed = {}, packed = false) {
  const made = new Map();
  const server = createServer(async (request, response) => {
    const name = new URL(request.url, "http://local").pathname.replace(/^\/page\//, "") || "index.html";
    try {
      if (!request.url.startsWith("/page/") || name.includes("..")) throw new Error("outside");
      if (changed[name] === null) throw new Error("gone");
      const body = changed[name] ?? (await readFile(path.join(dist, name)));
      const headers = { "Content-Type": KINDS[path.extname(name)] ?? "application/octet-stream" };
      if (!packed) {
        response.writeHead(200, headers).end(body);
        return;
      }
      if (!made.has(name)) made.set(name, brotliCompressSync(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } }));
      response.writeHead(200, { ...headers, "Content-Encoding": "br", "Cache-Control": "max-age=31536000" }).end(made.get(name));
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  return server;
}

/** A zip file of texts, stored as they are. */
export function zip(files) {
  const parts = [];
  const index = [];
  let at = 0;
  for (const [name, text] of Object.entries(files)) {
    const [title, body] = [Buffer.from(name), Buffer.from(text)];
    const about = Buffer.alloc(26);
    about.writeUInt16LE(20, 0);
    about.writeUInt32LE(crc32(body), 10);
    about.writeUInt32LE(body.length, 14);
    about.writeUInt32LE(body.length, 18);
    about.writeUInt16LE(title.length, 22);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(at, 10);
    index.push(Buffer.from("PK\x01\x02\x14\0"), about, rest, title);
    parts.push(Buffer.from("PK\x03\x04"), about, title, body);
    at += 30 + title.length + body.length;
  }
  const listed = Buffer.concat(index);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(Object.keys(files).length, 4);
  end.writeUInt16LE(Object.keys(files).length, 6);
  end.writeUInt32LE(listed.length, 8);
  end.writeUInt32LE(at, 12);
  return Buffer.concat([...parts, listed, Buffer.from("PK\x05\x06"), end]);
}

/** Chromium where Debian and others put it. */
export function browserPath() {
  const places = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const found = places.find((place) => place && existsSync(place));
  if (!found) throw new Error("no Chromium: install the package chromium, or name it in CHROMIUM");
  return found;
}

const checks = [];
export const check = (name, run) => checks.push({ name, run });

export function expect(holds, said) {
  if (!holds) throw new Error(said);
}

export function equal(found, wanted, said = "") {
  expect(found === wanted, `${said} found ${JSON.stringify(found)}, wanted ${JSON.stringify(wanted)}`);
}

/** Waits until the page has drawn what it was last told: a busy machine draws late. */
export async function settled(page) {
  await page.evaluate(() => new Promise((done) => {
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)));
  }));
}

/** Waits until something holds, for five seconds at most; then says what was found instead. */
export async function eventually(page, find, holds, said, most = 5_000) {
  const end = Date.now() + most;
  let found = await find();
  while (!holds(found) && Date.now() < end) {
    await settled(page);
    found = await find();
  }
  expect(holds(found), `${said}: found ${JSON.stringify(found)}`);
}

/**
 * A fresh visitor; complains at the end about errors and requests to elsewhere. Beside what the
 * browser's contexts take: `before` runs in the page before its scripts, `without` are addresses
 * that are not there, and `forgives` are complaints that belong to the check.
 */
async function visitor(browser, address, options = {}) {
  const { before, without, forgives, ...rest } = options;
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...rest });
  const page = await context.newPage();
  const complaints = { all: [], push: (said) => { if (!forgives?.test(said)) complaints.all.push(said); } };
  page.on("console", (said) => {
    if (["error", "warning"].includes(said.type())) complaints.push(`console: ${said.text()}`);
  });
  page.on("pageerror", (error) => complaints.push(`error: ${error.message}`));
  page.on("request", (request) => {
    if (!request.url().startsWith(address)) complaints.push(`request to ${request.url()}`);
  });
  await page.addInitScript(() => {
    addEventListener("securitypolicyviolation", (event) => console.error(`policy: ${event.violatedDirective} ${event.blockedURI}`));
  });
  if (before) await page.addInitScript(before);
  if (without) await page.route(without, (route) => route.fulfill({ status: 404 }));
  return { context, page, complaints: complaints.all };
}

/**
 * Runs all checks; each gets `open(options)`, which gives a page that has answered, and may allow
 * complaints that it provokes.
 */
export async function runAll(what = "the page") {
  await mkdir(pictures, { recursive: true });
  const server = await serve();
  const address = `http://127.0.0.1:${server.address().port}/page/`;
  const browser = await chromium.launch({
    executablePath: browserPath(),
    args: ["--no-sandbox", "--autoplay-policy=user-gesture-required", "--mute-audio"],
  });
  console.log(`Chromium ${browser.version()}`);
  const only = process.argv[2];
  let failed = 0;
  for (const { name, run } of checks) {
    if (only && !name.includes(only)) continue;
    // Pictures are for people to look at: node check.mjs pictures.
    if (!only && name.startsWith("pictures")) continue;
    const start = performance.now();
    const attempt = async () => {
      const visitors = [];
      // The page itself, or another of dist/ (`at`), or a page of the check's own beside the
      // elements (`html`, with `headers`); `until` is what tells that it stands.
      const open = async ({ at = "", html, headers, until = ".verdict-line", ...options } = {}) => {
        const one = await visitor(browser, address, options);
        visitors.push(one);
        if (html === undefined) {
          await one.page.goto(address + at);
          await one.page.locator(until).first().waitFor();
        } else {
          const own = `${address}elements/own.html`;
          await one.page.route(own, (route) => route.fulfill({ contentType: "text/html; charset=utf-8", headers, body: html }));
          await one.page.goto(own);
        }
        return one.page;
      };
      try {
        const allowed = [];
        const found = await run(open, { browser, address }, { allow: (words) => allowed.push(words) });
        const all = visitors.flatMap((one) => one.complaints);
        const complaints = all.filter((said) => !allowed.some((words) => words.test(said)));
        expect(complaints.length === 0, complaints.join("; "));
        return { found };
      } catch (error) {
        const picture = `failed-${name.replaceAll(/\W+/g, "-")}.png`;
        await visitors.at(-1)?.page.screenshot({ path: path.join(pictures, picture) }).catch(() => {});
        return { error: error.message };
      } finally {
        for (const one of visitors) await one.context.close();
      }
    };
    // A browser on a busy machine now and then misses a frame: what fails twice has failed, and
    // what fails once is told.
    let result = await attempt();
    if (result.error) {
      console.log(`again   ${name}: ${result.error}`);
      result = await attempt();
    }
    const time = `${Math.round(performance.now() - start)} ms`;
    if (result.error) {
      failed += 1;
      console.log(`FAILED  ${name}: ${result.error}`);
    } else {
      console.log(`ok      ${name}${result.found ? `: ${result.found}` : ""} (${time})`);
    }
  }
  await browser.close();
  server.close();
  console.log(failed === 0 ? `all checks of ${what} passed` : `${failed} checks of ${what} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}
