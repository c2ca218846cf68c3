// Lighthouse: accessibility and best practices are gates; performance is a figure, because it
// depends on the machine. The page is served packed, as a host of pages does, on a phone's network
// with the processor four times slower (Lighthouse's own settings for phones).

import { readFile } from "node:fs/promises";
import path from "node:path";
import { launch } from "chrome-launcher";
import lighthouse from "lighthouse";
import { browserPath, check, expect, root, serve } from "./harness.mjs";

const budgets = JSON.parse(await readFile(path.join(root, "tests/browser/budgets.json"), "utf8"));

async function measured(run) {
  const server = await serve({}, true);
  const chrome = await launch({ chromePath: browserPath(), chromeFlags: ["--headless=new", "--no-sandbox", "--disable-dev-shm-usage"], logLevel: "silent" });
  try {
    const address = `http://127.0.0.1:${server.address().port}/page/`;
    // The first visitor finds the server ready.
    for (const file of ["", ...(await (await fetch(address)).text()).match(/[\w-]+-[0-9a-f]{16}\.\w+/g)]) await fetch(address + file);
    return await run(async (categories) => {
      const { lhr } = await lighthouse(address, { port: chrome.port, logLevel: "silent", output: "json", onlyCategories: categories });
      if (lhr.runtimeError) throw new Error(lhr.runtimeError.message);
      return lhr;
    });
  } finally {
    await chrome.kill();
    server.close();
  }
}

const hundred = (lhr, category) => Math.round(lhr.categories[category].score * 100);

check("lighthouse: accessibility and best practices", () => measured(async (run) => {
  const lhr = await run(["accessibility", "best-practices"]);
  const short = Object.values(lhr.audits).filter((audit) => audit.score !== null && audit.score < 1 && audit.scoreDisplayMode !== "informative");
  const said = `accessibility ${hundred(lhr, "accessibility")}, best practices ${hundred(lhr, "best-practices")}`;
  expect(hundred(lhr, "accessibility") === 100 && hundred(lhr, "best-practices") === 100, `${said}: ${short.map((audit) => audit.id).join(", ")}`);
  return said;
}));

check("lighthouse: performance", () => measured(async (run) => {
  const runs = [];
  for (let i = 0; i < 3; i += 1) {
    const lhr = await run(["performance"]);
    const of = (audit) => Math.round(lhr.audits[audit].numericValue);
    runs.push({ score: hundred(lhr, "performance"), paint: of("first-contentful-paint"), largest: of("largest-contentful-paint"), blocked: of("total-blocking-time"), shift: lhr.audits["cumulative-layout-shift"].numericValue });
  }
  runs.sort((a, b) => a.score - b.score);
  const { score, paint, largest, blocked, shift } = runs[1];
  return `${score}, the middle of ${runs.map((one) => one.score).join(", ")} (target ${budgets.lighthouse_performance_target}); first paint ${paint} ms, largest ${largest} ms, blocked ${blocked} ms, shift ${shift.toFixed(3)}`;
}));
