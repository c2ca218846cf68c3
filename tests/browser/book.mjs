// Runs every check of the built book: node book.mjs [PART OF A NAME]

import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { check, dist, equal, expect, pictures, root, runAll, settled } from "./harness.mjs";

const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const folder = path.join(dist, "book");
const chapters = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith(".html")) : [];
expect(chapters.length > 10, `${folder} holds ${chapters.length} chapters: cargo xtask book builds it`);

/** Waits until the live pictures of a chapter have drawn themselves, each as it comes into view. */
async function drawn(page) {
  for (const one of await page.locator("main :is(modewright-wheel, modewright-tune, modewright-ask, modewright-lesson)").all()) {
    await one.scrollIntoViewIfNeeded();
    await page.waitForFunction((one) => one.shadowRoot?.querySelector(".stage *") && !one.shadowRoot.querySelector(".loading"), await one.elementHandle());
  }
  await page.evaluate(() => scrollTo(0, 0));
  await settled(page);
}

async function accessible(page, said) {
  const found = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  const faults = found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 4).join(", ")}`);
  equal(faults.join("; "), "", `${said}:`);
}

const SIZES = [[320, 1], [360, 1], [360, 2], [768, 1], [1024, 2], [1440, 1], [1920, 1]];

async function noSidewaysScroll(page) {
  for (const [width, zoom] of SIZES) {
    await page.setViewportSize({ width, height: 800 });
    await page.evaluate((zoom) => { document.documentElement.style.fontSize = `${100 * zoom}%`; }, zoom);
    await settled(page);
    const over = await page.evaluate(() => {
      if (document.documentElement.scrollWidth <= innerWidth) return "";
      const wide = [...document.querySelectorAll("body *")].filter((one) => one.getBoundingClientRect().right > innerWidth + 1);
      return wide.slice(0, 6).map((one) => `${one.tagName}.${one.getAttribute("class")}`).join(" ") || "something";
    });
    equal(over, "", `at ${width} pixels, text ${zoom}x, too wide:`);
  }
  await page.evaluate(() => { document.documentElement.style.fontSize = ""; });
}

// Each chapter is opened once: its pictures draw themselves, nothing is asked of other addresses,
// axe-core passes in light and dark, nothing scrolls sideways; then it is photographed.
const titles = new Set();
for (const chapter of chapters) {
  check(`chapter ${chapter}`, async (open) => {
    const page = await open({ at: `book/${chapter}`, until: "main h1", reducedMotion: "reduce" });
    equal(await page.locator("h1").count(), 1, "headings of the first level:");
    equal(await page.locator('#contents [aria-current="page"]').count(), 1, "its place in the contents:");
    const title = await page.title();
    expect(title && !titles.has(title), `another chapter is called ${title}`);
    await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
    await drawn(page);
    await page.evaluate(axe);
    for (const [name, viewport, colorScheme] of [["wide", { width: 1280, height: 900 }, "light"], ["phone", { width: 360, height: 740 }, "dark"]]) {
      await page.setViewportSize(viewport);
      await page.emulateMedia({ colorScheme });
      await settled(page);
      await accessible(page, colorScheme);
      await page.screenshot({ path: path.join(pictures, `book-${path.basename(chapter, ".html")}-${name}.png`), fullPage: true });
    }
    await noSidewaysScroll(page);
    titles.add(title);
  });
}

check("every link and anchor leads somewhere", async (open) => {
  const page = await open({ at: "book/index.html", until: "main h1" });
  const anchors = new Map();
  const links = [];
  for (const chapter of chapters) {
    const text = await readFile(path.join(folder, chapter), "utf8");
    const found = await page.evaluate((text) => {
      const parsed = new DOMParser().parseFromString(text, "text/html");
      const names = ["href", "src"];
      return {
        ids: [...parsed.querySelectorAll("[id]")].map((one) => one.id),
        links: names.flatMap((name) => [...parsed.querySelectorAll(`[${name}]`)].map((one) => one.getAttribute(name))),
      };
    }, text);
    equal(new Set(found.ids).size, found.ids.length, `${chapter}: ids apart:`);
    anchors.set(path.join(folder, chapter), new Set(found.ids));
    links.push(...found.links.map((link) => [chapter, link]));
  }
  const wrong = [];
  for (const [chapter, link] of links) {
    const [file, anchor] = link.split("#");
    const target = file ? path.join(folder, decodeURIComponent(file)) : path.join(folder, chapter);
    if (/^([a-z]+:|\/)/.test(link)) wrong.push(`${chapter}: ${link} leaves the folder`);
    else if (!existsSync(target) && !(file.startsWith("../") && existsSync(path.join(dist, file.slice(3))))) wrong.push(`${chapter}: ${link}`);
    else if (anchor && !anchors.get(target)?.has(anchor)) wrong.push(`${chapter}: ${link} has no such anchor`);
  }
  equal(wrong.join("; "), "", "");
  expect(links.length > 300, `only ${links.length} links found`);
  return `${links.length} links`;
});

check("the page leads to chapters that are there", async (open) => {
  const page = await open();
  const links = await page.locator("footer .book a").evaluateAll((all) => all.map((one) => one.getAttribute("href")));
  expect(links.length > 5, `only ${links.length} links to the book`);
  for (const link of links) expect(existsSync(path.join(dist, link)), `the page leads to ${link}`);
});

check("the book reads without scripts", async (open) => {
  const page = await open({ at: "book/index.html", until: "main h1", javaScriptEnabled: false });
  for (const chapter of chapters) {
    await page.goto(new URL(chapter, page.url()).href);
    const bare = await page.locator("figure").evaluateAll((all) => all.filter((one) => (one.querySelector("figcaption")?.textContent.trim().length ?? 0) < 40).length).catch(() => 0);
    equal(bare, 0, `${chapter}: pictures without words`);
    for (const tune of await page.locator("modewright-tune, modewright-lesson").all()) {
      expect((await tune.textContent()).includes("invented for Modewright"), `${chapter}: a tune cannot be read`);
    }
  }
});

check("the wheel of the first chapter turns as the text says", async (open) => {
  const page = await open({ at: "book/seven-notes.html", until: "main h1", reducedMotion: "reduce" });
  await drawn(page);
  const wheel = page.locator("modewright-wheel");
  const hub = async () => `${await wheel.locator(".hub-home").textContent()} ${await wheel.locator(".hub-mode").textContent()}`;
  const met = [];
  for (let i = 0; i < 7; i += 1) {
    met.push(await hub());
    await wheel.getByRole("button", { name: "on", exact: true }).click();
    await settled(page);
  }
  equal(met.join(", "), "C major, D Dorian, E Phrygian, F Lydian, G Mixolydian, A minor, B Locrian", "all seven:");
  equal(await hub(), "C major", "once round:");
  await wheel.getByRole("button", { name: "darker" }).click();
  await settled(page);
  equal(await hub(), "C Mixolydian", "one darker:");
});

check("the box of the first page answers", async (open) => {
  const page = await open({ at: "book/index.html", until: "main h1", reducedMotion: "reduce" });
  await drawn(page);
  const ask = page.locator("modewright-ask");
  await ask.locator("textarea").fill("D E F# G A B c# d");
  await ask.locator(".verdict-line").filter({ hasText: "D major" }).waitFor();
});

check("tunes are drawn with the rows that the chapters name", async (open) => {
  const page = await open({ at: "book/counting.html", until: "main h1", reducedMotion: "reduce" });
  await drawn(page);
  const tunes = await page.locator("modewright-tune").all();
  equal(tunes.length, 2, "tunes:");
  for (const tune of tunes) {
    expect(await tune.locator("svg [data-i]").count() > 30, "no notes on the staff");
    expect((await tune.locator("svg text").allTextContents()).some((text) => text.includes("(2)")), "no count under the notes");
    equal(await tune.locator(".verdict-line").count(), 0, "a verdict where none was asked for:");
  }
});

check("the package's examples print what stands under them", async () => {
  const place = path.join(pictures, "book-examples");
  rmSync(place, { recursive: true, force: true });
  mkdirSync(path.join(place, "node_modules"), { recursive: true });
  symlinkSync(path.join(dist, "npm/package"), path.join(place, "node_modules/modewright"));
  const text = await readFile(path.join(root, "book/src/page-authors.md"), "utf8");
  const examples = [...text.matchAll(/```js\n(import [^`]*?from "modewright[^]*?)```\n\n```text\n([^]*?)```/g)];
  expect(examples.length > 0, "no example found");
  for (const [, program, prints] of examples) {
    writeFileSync(path.join(place, "example.mjs"), program);
    equal(execFileSync(process.execPath, ["example.mjs"], { cwd: place, encoding: "utf8" }), prints, "an example:");
  }
});

check("the book reads from a folder, without any server", async (open, { browser }) => {
  const page = await (await browser.newContext()).newPage();
  await page.goto(pathToFileURL(path.join(folder, "index.html")).href);
  let read = 0;
  for (;;) {
    await page.locator("main h1").waitFor();
    expect(await page.evaluate(() => getComputedStyle(document.querySelector("h1")).fontWeight) === "600", "no style sheet");
    read += 1;
    const next = page.locator(".turn .on");
    if (await next.count() === 0) break;
    await next.click();
  }
  await page.context().close();
  equal(read, chapters.length, "chapters from first to last:");
});

await runAll("the book");
