// Budgets: what is loaded until the first answer, and how long an answer takes.

import { readFile } from "node:fs/promises";
import path from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import { check, equal, expect, root } from "./harness.mjs";

const budgets = JSON.parse(await readFile(path.join(root, "tests/browser/budgets.json"), "utf8"));

check("size until the first answer", async (open, { browser, address }) => {
  const context = await browser.newContext();
  const page = await context.newPage();
  const loaded = [];
  page.on("response", (response) => loaded.push(response));
  // When the first answer stands, by the clock that the browser also notes requests by.
  await page.addInitScript(() => {
    new MutationObserver((_, watch) => {
      if (!document.querySelector(".verdict-line")?.textContent) return;
      window.answered = performance.now();
      watch.disconnect();
    }).observe(document, { childList: true, subtree: true });
  });
  await page.goto(address);
  await page.locator(".staff svg").waitFor();
  const later = new Set(await page.evaluate(() => {
    const asked = performance.getEntriesByType("resource");
    return asked.filter((one) => one.startTime > window.answered).map((one) => one.name);
  }));
  let sum = 0;
  const parts = [];
  const lazy = [];
  for (const response of loaded) {
    equal(response.status(), 200, response.url());
    const body = await response.body();
    const small = brotliCompressSync(body, {
      params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: body.length },
    });
    const told = `${path.basename(new URL(response.url()).pathname).replace(/-.*\./, ".") || "page"} ${(small.length / 1024).toFixed(1)}`;
    if (later.has(response.url())) {
      lazy.push(told);
      continue;
    }
    sum += small.length;
    parts.push(told);
  }
  await context.close();
  const kib = sum / 1024;
  const said = `${kib.toFixed(1)} KiB of ${budgets.first_answer_kib_brotli} (${parts.join(", ")}); then for the staff ${lazy.join(", ")}`;
  expect(loaded.length >= 4 && kib <= budgets.first_answer_kib_brotli, said);
  return said;
});

check("key press to verdict on a 64-bar tune", async (open) => {
  const page = await open();
  const bars = ["EGB BAB|", "c2B AFD|", "EGB BAG|", "F2D DEF|", "e2f gfe|", "d2c B2A|", "g2e f2d|", "cde dcB|"];
  const tune = `X:1\nT:Sixty-four bars\nM:6/8\nL:1/8\nK:EDor\n${Array.from({ length: 64 }, (_, i) => bars[(i * 5) % 8] + (i % 4 === 3 ? "\n" : "")).join("")}`;
  await page.locator(".field textarea").fill(tune);
  const { times, yardstick } = await page.evaluate(async () => {
    const field = document.querySelector(".field textarea");
    const set = Object.getOwnPropertyDescriptor(HTMLTextAreaElement.prototype, "value").set;
    const verdict = document.querySelector(".verdict");
    // A key: the field changes, the page answers, the browser lays it out.
    const key = async (text) => {
      set.call(field, text);
      const start = performance.now();
      field.dispatchEvent(new InputEvent("input", { bubbles: true }));
      await new Promise((done) => {
        const channel = new MessageChannel();
        channel.port1.onmessage = done;
        channel.port2.postMessage(0);
      });
      verdict.getBoundingClientRect();
      return performance.now() - start;
    };
    // The same number of sums each time; about as long as a frame on a slow machine.
    const loop = () => {
      const start = performance.now();
      let sum = 1;
      for (let i = 0; i < 6_000_000; i += 1) sum = (Math.imul(sum, 31) + i) | 0;
      window.kept = sum;
      return performance.now() - start;
    };
    const times = [];
    const loops = [];
    const whole = field.value;
    const letters = "ABcdefgGFED";
    for (let i = 0; i < 240; i += 1) {
      const at = whole.length - 2 - (i % 200);
      const time = await key(whole.slice(0, at) + letters[i % 11] + whole.slice(at));
      if (i >= 40) times.push(time);
      if (i % 8 === 0) loops.push(loop());
      await new Promise(requestAnimationFrame);
    }
    loops.sort((a, b) => a - b);
    return { times: times.sort((a, b) => a - b), yardstick: loops[Math.floor(loops.length / 2)] };
  });
  const middle = times[Math.floor(times.length / 2)];
  const high = times[Math.floor(times.length * 0.95)];
  const said = `middle ${middle.toFixed(1)} ms, 95th percentile ${high.toFixed(1)} ms (target ${budgets.key_to_verdict_ms_target} ms), yardstick ${yardstick.toFixed(1)} ms`;
  expect(await page.locator(".verdict-line").innerText() !== "", "no verdict");
  expect(high <= budgets.key_to_verdict_yardsticks * yardstick, `${said}: more than ${budgets.key_to_verdict_yardsticks} yardsticks`);
  return said;
});
