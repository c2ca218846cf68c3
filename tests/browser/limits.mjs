// At every limit of the shared list and one past it, on the page: a file is opened, the page tells
// what was too much of it, or says nothing of it, and goes on answering.

import { readFile } from "node:fs/promises";
import path from "node:path";
import { check, eventually, expect, root } from "./harness.mjs";

/** What the page is not given, and why. */
const LEFT_OUT = {
  "tune-bytes at": "8 MiB in one line keep the browser's layout for seconds; one byte more is asked, once",
  "score-bytes at": "the page opens no file of more than 16 MiB",
};
/** What the page says in its own way: of many problems it lists a dozen and counts the others. */
const OWN_WORDS = { problems: "and 989 more", "score-bytes": "larger than 16 MiB" };

/** The longest that a page may be without an answer, in milliseconds. */
const MOST = 90_000;

const read = async (file) => readFile(path.join(root, "tests", file), "utf8");
const field = (page) => page.locator(".field textarea");
/** All that is told of what was opened. */
const told = (page) => page.locator(".problems, .opened, .refused").allInnerTexts().then((all) => all.join("\n"));

check("every limit is kept and told", async (open) => {
  const { cases } = JSON.parse(await read("fixtures/limits.json"));
  // "id, error: what is told, hint: the way out", with an empty line between.
  const words = Object.fromEntries((await read("golden/limits.txt")).trim().split("\n\n").map((one) => {
    const [id, message] = one.split("\n");
    return [id, OWN_WORDS[id] ?? message.replace(/^error: (-: line 1: )?/, "")];
  }));
  const page = await open();
  let count = 0;
  let slowest = { name: "", opened: 0 };
  for (const { id, head, piece, tail, at, past } of cases) {
    for (const times of [at, past]) {
      const isPast = times === past;
      const name = `${id} ${isPast ? "past" : "at"}`;
      if (LEFT_OUT[name]) continue;
      const begun = performance.now();
      const is = head.startsWith("<?xml") ? "musicxml" : "abc";
      const buffer = Buffer.from(head + piece.repeat(times) + tail);
      await page.setInputFiles("input[type=file]", { name: `limit.${is}`, mimeType: "text/plain", buffer });
      if (isPast) {
        await eventually(page, () => told(page), (all) => all.includes(words[id]), `${name}: not told`, MOST);
      } else {
        // Opened, and answered.
        await eventually(page, () => field(page).inputValue(), (text) => text.startsWith("X:1\n"), `${name}: not opened`, MOST);
        expect(!(await told(page)).includes(words[id]), `${name}: told`);
      }
      // A million notes have an answer, and no staff.
      if (id === "notes") {
        await eventually(page, () => page.locator(".no-staff").innerText().catch(() => ""), (all) => all.includes("too many for a sheet"), `${name}: staff`, MOST);
      }
      const opened = performance.now() - begun;
      await field(page).fill("D E F# my own", { timeout: MOST });
      await eventually(page, () => told(page), (all) => all.includes("`own` is not a note"), `${name}: no answer`, MOST);
      count += 1;
      if (opened > slowest.opened) slowest = { name, opened };
    }
  }
  return `${count} inputs, ${(slowest.opened / 1000).toFixed(1)} s at most (${slowest.name}); left out: ${Object.keys(LEFT_OUT).join(", ")}`;
});
