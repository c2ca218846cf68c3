// Without a network: what is kept on the device, and what happens when another version comes.

import { readFile } from "node:fs/promises";
import { readdirSync } from "node:fs";
import path from "node:path";
import { check, dist, equal, eventually, expect, serve, settled } from "./harness.mjs";

/** Waits until the page is kept on the device. */
const kept = (page) => eventually(page, () => page.evaluate(async () => {
  const worker = await navigator.serviceWorker.getRegistration();
  const names = (await caches.keys()).filter((name) => name.startsWith("modewright-"));
  return [worker?.active?.state, names.length];
}), ([state, count]) => state === "activated" && count > 0, "the page is not kept", 20_000);

check("without a network the whole page works", async (open) => {
  const page = await open();
  await kept(page);
  const list = await page.evaluate(async () => {
    const all = [];
    for (const name of await caches.keys()) for (const request of await (await caches.open(name)).keys()) all.push(new URL(request.url).pathname.split("/").at(-1));
    return all;
  });
  const hashed = readdirSync(dist).filter((name) => /-[0-9a-f]{16}\./.test(name));
  for (const name of ["", ...hashed]) expect(list.includes(name), `${name || "the page itself"} is not kept`);
  const context = page.context();
  await context.setOffline(true);
  await page.reload();
  await page.locator(".verdict-line").waitFor();
  await page.locator(".field textarea").fill("D E F# G A B c# d A F# D");
  await page.getByLabel("Tunes to try").selectOption("five-oars");
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  await page.locator(".paper .sheets svg").first().waitFor();
  for (const name of ["PDF", "MIDI", "WAV"]) {
    const waiting = page.waitForEvent("download");
    await page.locator(".saves").getByRole("button", { name }).click();
    await waiting;
  }
  await context.setOffline(false);
  return `${list.length} files`;
});

check("nothing is kept, and no part is fetched, before the first answer", async (_, { browser, address }) => {
  const context = await browser.newContext();
  const asked = [];
  context.on("request", (request) => asked.push(request.url()));
  const page = await context.newPage();
  await page.goto(address);
  await page.locator(".verdict-line").waitFor();
  equal(asked.filter((url) => /offline\.js|\/(print|files|sound|engine)-/.test(url)).join(), "", "too early");
  await kept(page);
  await context.close();
});

check("a newer version is told, comes when the page is loaded again, and is never forced", async (_, { browser }) => {
  const changed = {};
  const server = await serve(changed);
  const address = `http://127.0.0.1:${server.address().port}/page/`;
  const context = await browser.newContext();
  try {
    const page = await context.newPage();
    await page.goto(address);
    await page.locator(".verdict-line").waitFor();
    await kept(page);
    await page.reload();
    await page.locator(".verdict-line").waitFor();
    const other = await context.newPage();
    await other.goto(address);
    await other.locator(".verdict-line").waitFor();
    equal(await page.locator("#newer button").count(), 0, "told without a newer version");

    // The next version: another name for the first script, and the old parts are gone.
    const index = await readFile(path.join(dist, "index.html"), "utf8");
    const worker = await readFile(path.join(dist, "offline.js"), "utf8");
    const start = index.match(/start-[0-9a-f]{16}\.js/)[0];
    const next = "start-00000000000000ff.js";
    changed["index.html"] = index.replace(start, next).replace("<title>", "<title>Next: ");
    changed[next] = await readFile(path.join(dist, start));
    changed["offline.js"] = worker.replace(start, next).replace(/VERSION = "\w+"/, "VERSION = \"next\"");
    changed[start] = null;
    const print = readdirSync(dist).filter((name) => name.startsWith("print-"));
    for (const name of print) changed[name] = null;
    changed["offline.js"] = print.reduce((text, name) => text.replace(`  "${name}",\n`, ""), changed["offline.js"]);

    await page.evaluate(() => { window.same = true; });
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
    for (const one of [page, other]) await one.getByText("A newer version of this page is ready").waitFor();
    equal(await page.evaluate(() => window.same), true, "the page was loaded again by itself");
    // The old page goes on with its own files, which the server no longer has.
    await other.locator("#lesson").scrollIntoViewIfNeeded();
    await other.locator(".paper .sheets svg").first().waitFor();
    await page.locator(".field textarea").fill("D E F# my own");
    await settled(page);
    await page.getByRole("button", { name: "Load it now" }).click();
    await eventually(page, () => page.title().catch(() => ""), (title) => title.startsWith("Next: "), "the newer version");
    await page.locator(".verdict-line").waitFor();
    equal(await page.locator(".field textarea").inputValue(), "D E F# my own", "what was typed");
    equal(await page.locator("#newer button").count(), 0, "still told");
    // Loading by hand brings it too.
    await other.reload();
    await eventually(other, () => other.title().catch(() => ""), (title) => title.startsWith("Next: "), "by hand");
  } finally {
    await context.close();
    server.close();
  }
});

check("a browser that keeps no pages shows the page all the same", async (open) => {
  for (const before of [
    () => Object.defineProperty(Navigator.prototype, "serviceWorker", { value: undefined }),
    () => { ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException("no", "SecurityError")); },
  ]) {
    const page = await open({ before });
    await page.locator(".field textarea").fill("D E F# G A B c# d A F# D");
    await page.waitForTimeout(1_800);
    await eventually(page, () => page.locator(".verdict-line").innerText(), (said) => said.includes("D"), "no verdict");
  }
});
