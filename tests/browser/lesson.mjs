// The lesson: choices, words of the reader's own, print, files, links.

import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { deflateRawSync } from "node:zlib";
import { check, equal, eventually, expect, pictures, root, settled, target } from "./harness.mjs";
import { choose } from "./instrument.mjs";
import { wordsOfPdf } from "./pdf.mjs";

const field = (page) => page.locator(".field textarea");
const passages = (page) => page.locator(".walk .passage textarea");
const title = (page) => page.locator(".paper-title").textContent();

/** Goes to the lesson and waits until it is written. */
async function toLesson(page) {
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  await page.locator(".paper .sheets svg").first().waitFor();
}

/** Waits until the lesson is that of a tune. */
const lessonOf = (page, name) => eventually(page, () => title(page), (found) => found === name, "the lesson");

/** Writes into the passage of a label. */
async function write(page, label, words) {
  await page.getByLabel(label, { exact: true }).fill(words);
  await settled(page);
}

check("the lesson is asked for when it is near, and not before", async (open) => {
  const page = await open();
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.getByRole("button", { name: "darker" }).click();
  await page.waitForTimeout(1_000);
  equal(asked.filter((url) => /\/print-/.test(url)).length, 0, "requests before");
  await toLesson(page);
  expect(asked.some((url) => /\/print-.*wasm/.test(url)), "nothing was loaded");
  equal(await title(page), "Ebb at Lantern Quay");
  const said = await page.locator(".walk").evaluate((walk) => [...walk.querySelectorAll("textarea")].map((one) => one.value).join(" "));
  expect(said.includes("Home is E, and the mode is Dorian"), said.slice(0, 200));
  const rows = await page.locator(".sheets").textContent();
  expect(rows.includes("1") && rows.includes("G"), "no rows");
});

check("choices change sheet and walk-through, by pointer and by keys, and are kept", async (open) => {
  const page = await open();
  await toLesson(page);
  const words = () => passages(page).evaluateAll((all) => all.map((one) => one.value).join(" "));
  expect((await words()).includes("quaver"), "no British values");
  const values = page.getByLabel("Note values");
  await values.focus();
  await page.keyboard.press("ArrowDown");
  await eventually(page, words, (said) => said.includes("eighth note") && !said.includes("quaver"), "American values");
  await page.getByLabel("Note names").selectOption("Fis, B, H (German)");
  await eventually(page, words, (said) => said.includes("H") && said.includes("Cis"), "German names");
  const count = page.locator(".lesson-choices").getByLabel("count", { exact: true });
  const before = (await page.locator(".sheets").innerHTML()).length;
  await count.focus();
  await page.keyboard.press("Space");
  await eventually(page, async () => (await page.locator(".sheets").innerHTML()).length, (length) => length < before, "without the count");
  await page.locator(".lesson-choices").getByLabel("highest").click();
  await eventually(page, () => page.locator(".sheets").textContent(), (text) => text.includes("highest"), "the mark");
  await page.reload();
  await page.locator(".verdict-line").waitFor();
  await toLesson(page);
  equal(await values.evaluate((one) => one.selectedIndex), 1, "values after reload");
  expect(!(await count.isChecked()), "count after reload");
});

check("the reader's words stay with the tune: reload, another tune, back", async (open) => {
  const page = await open();
  await toLesson(page);
  const bar = page.getByLabel("Bar 2", { exact: true });
  const engine = await bar.inputValue();
  await bar.focus();
  await page.keyboard.press("Control+A");
  await page.keyboard.type("Here the boat turns.\n\nBreathe.");
  await settled(page);
  expect((await page.locator(".beside:not(:empty)").innerText()).includes(engine), "the engine's words are not beside");
  await page.reload();
  await page.locator(".verdict-line").waitFor();
  await toLesson(page);
  equal(await bar.inputValue(), "Here the boat turns.\n\nBreathe.", "after reload");
  await page.getByLabel("Tunes to try").selectOption("five-oars");
  await lessonOf(page, "Five Oars");
  equal(await page.locator(".passage.changed").count(), 0, "another tune");
  await page.getByLabel("Tunes to try").selectOption("ebb-at-lantern-quay");
  await lessonOf(page, "Ebb at Lantern Quay");
  equal(await bar.inputValue(), "Here the boat turns.\n\nBreathe.", "back");
  await page.getByRole("button", { name: "Take these words" }).click();
  await settled(page);
  equal(await bar.inputValue(), engine, "taken back");
  await page.getByRole("button", { name: "Words before" }).click();
  await settled(page);
  equal(await bar.inputValue(), "Here the boat turns.\n\nBreathe.", "the way back");
});

check("words that were written for an earlier form of the tune say so", async (open) => {
  const page = await open();
  await toLesson(page);
  await write(page, "Bar 2", "Two turns of the oar.");
  equal(await page.locator(".old-said").count(), 0, "marked too soon");
  const abc = await field(page).inputValue();
  await field(page).fill(abc.replace("c2B AFD", "c2B ABD"));
  await page.locator(".old-said").waitFor();
  equal(await page.getByLabel("Bar 2", { exact: true }).inputValue(), "Two turns of the oar.", "the words");
  await page.getByRole("button", { name: "Mine are still right" }).click();
  await settled(page);
  equal(await page.locator(".old-said").count(), 0, "still marked");
  // A passage that is gone keeps its words apart.
  await field(page).fill(abc.replace(/\|:D\|[^]*$/, "EGB BAB|]\n"));
  await page.locator(".gone-words").waitFor();
  expect((await page.locator(".gone-words").innerText()).includes("Two turns of the oar."), "the words are lost");
  await page.getByRole("button", { name: "Let them go" }).click();
  await settled(page);
  equal(await page.locator(".gone-words").count(), 0, "let go");
});

check("the chosen instrument stands under the notes of the lesson", async (open) => {
  const page = await open();
  await choose(page, "tin-whistle-d");
  await toLesson(page);
  const row = page.locator(".lesson-choices").getByLabel("fingering", { exact: true });
  const before = (await page.locator(".sheets").innerHTML()).length;
  await row.check();
  await eventually(page, async () => (await page.locator(".sheets").innerHTML()).length, (length) => length > before + 2_000, "no fingerings");
  const text = await page.locator(".sheets").textContent();
  expect(text.includes("fingering"), "the row has no name");
});

check("an answer that comes late is dropped", async (open) => {
  const page = await open();
  await page.route(/\/print-.*\.wasm/, async (route) => {
    await new Promise((done) => setTimeout(done, 1_500));
    await route.continue();
  });
  const seen = [];
  await page.exposeFunction("seenTitle", (found) => seen.push(found));
  await page.evaluate(() => {
    new MutationObserver(() => {
      const found = document.querySelector(".paper-title")?.textContent;
      if (found) window.seenTitle(found);
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  await page.waitForTimeout(800);
  await page.getByLabel("Tunes to try").selectOption("five-oars");
  await lessonOf(page, "Five Oars");
  expect(!seen.includes("Ebb at Lantern Quay"), "the older answer was shown");
});

check("a part that cannot be loaded is told, and asked for again", async (open, _, complaints) => {
  const page = await open();
  let gone = true;
  await page.route(/\/print-.*/, (route) => (gone ? route.abort() : route.continue()));
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  await page.locator(".trouble").waitFor();
  expect((await page.locator(".trouble").innerText()).includes("network"), "not told");
  gone = false;
  await page.locator(".lesson-place").getByRole("button", { name: "Try again" }).click();
  await page.locator(".paper .sheets svg").first().waitFor();
  complaints.allow(/Failed to load resource/);
});

const places = { tune: "The tune", mode: "The mode", instrument: "The instrument", lesson: "The lesson" };

check("every place is reached by link and by key", async (open, { address }) => {
  const page = await open();
  for (const [name, said] of Object.entries(places)) {
    await page.getByRole("navigation", { name: "Places of this page" }).getByRole("link", { name: said }).focus();
    await page.keyboard.press("Enter");
    await eventually(page, () => page.locator(`#${name}`).evaluate((one) => {
      const box = one.getBoundingClientRect();
      return [box.top >= 0 && box.bottom <= innerHeight, document.activeElement === one];
    }), ([seen, focused]) => seen && focused, said);
    equal(new URL(page.url()).hash, `#${name}`);
  }
  await page.goto("about:blank");
  await page.goto(`${address}#lesson`);
  await page.locator(".paper .sheets svg").first().waitFor();
  const top = await page.locator("#lesson").evaluate((one) => one.getBoundingClientRect().top);
  expect(top >= 0 && top < 900, `at ${top}`);
});

/** Makes a link and gives it. */
async function link(page) {
  await page.getByRole("button", { name: "Make a link" }).click();
  const shown = page.getByLabel("Link to this lesson, with your words in it");
  await shown.waitFor();
  return shown.inputValue();
}

check("a link holds tune, choices and words, and comes back equal", async (open) => {
  const page = await open({ permissions: ["clipboard-read", "clipboard-write"] });
  await toLesson(page);
  await page.getByLabel("Note values").selectOption("quarter note, eighth note");
  await eventually(page, () => passages(page).evaluateAll((all) => all.map((one) => one.value).join(" ")), (said) => said.includes("eighth"), "values");
  await write(page, "Bar 2", "Lantern “ahead” — 灯");
  const made = await link(page);
  expect(/#mw1z\.[0-9a-f]+\.[\w-]+$/.test(made), made);
  await page.getByRole("button", { name: "Copy" }).click();
  await page.getByText("Copied.").waitFor();
  equal(await page.evaluate(() => navigator.clipboard.readText()), made, "clipboard");

  const other = await open();
  await field(other).fill("D E F# my own");
  await settled(other);
  await other.goto(made);
  await eventually(other, () => field(other).inputValue(), (text) => text.includes("Ebb at Lantern Quay"), "the tune");
  await toLesson(other);
  await other.locator(".passage.changed").waitFor();
  equal(await field(other).inputValue(), await field(page).inputValue(), "tune");
  equal(await other.getByLabel("Bar 2", { exact: true }).inputValue(), "Lantern “ahead” — 灯", "words");
  equal(await other.getByLabel("Note values").evaluate((one) => one.selectedIndex), 1, "values");
  equal(new URL(other.url()).hash, "", "the fragment stays");
  equal(await link(other), made, "made again");
  await other.getByRole("button", { name: "Text before" }).click();
  await settled(other);
  equal(await field(other).inputValue(), "D E F# my own", "what was typed before");
  await other.getByRole("button", { name: "Text after" }).click();
  await other.reload();
  await other.locator(".verdict-line").waitFor();
  equal(await field(other).inputValue(), await field(page).inputValue(), "after reload");
  return `${made.length} characters`;
});

check("a link that grows too long to mail is told", async (open) => {
  const page = await open();
  // Text that does not pack.
  let seed = 7;
  const odd = Array.from({ length: 2_400 }, () => String.fromCharCode(97 + ((seed = (seed * 48271) % 2147483647) % 26))).join("");
  await field(page).fill(`X:1\nT:Long\nN:${odd}\nK:D\nDEF|\n`);
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  expect((await link(page)).length > 2_000, "short");
  await page.locator(".warned").waitFor();
  // The link goes when it is a link no more.
  await field(page).fill("X:1\nT:Short\nK:D\nDEF|\n");
  await settled(page);
  equal(await page.locator(".to-copy textarea").count(), 0, "a stale link");
});

check("a browser that cannot pack makes a plain link, and reads it", async (open) => {
  const before = () => { delete window.CompressionStream; };
  const page = await open({ before });
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  const made = await link(page);
  expect(made.includes("#mw1."), made);
  await field(page).fill("D E F# my own");
  await settled(page);
  await page.evaluate((made) => { location.href = made; }, made);
  await eventually(page, () => field(page).inputValue(), (text) => text.includes("Ebb at Lantern Quay"), "the tune");
});

const check32 = (text) => {
  let hash = 0x811c9dc5;
  for (const byte of Buffer.from(text)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return hash.toString(16);
};
const packed = (bytes) => {
  const text = deflateRawSync(bytes).toString("base64url");
  return `#mw1z.${check32(text)}.${text}`;
};

check("no fragment breaks the page", async (open, { address }) => {
  const page = await open();
  await field(page).fill("D E F# my own");
  await settled(page);
  const bad = "<img src=x onerror=window.hit=1><script>window.hit=1</script>";
  const broken = ["#mw1z.0.AAAA", "#mw1z.", packed(Buffer.alloc(60 << 20)), packed("nothing of ours"), packed(Buffer.from([0xff, 0xfe, 0])), `${packed("modewright 1\nheader 99\n\n")}`, `#mw1z.${check32("_w")}._w`, packed("modewright 1\nheader 1\nwords 5000000000\n\nx")];
  const foreign = ["#", "#nowhere", "#%E0%A4%A", "#:~:text=Ebb", `#${bad}`, "#__proto__", "#mw", "#mwz.a.b"];
  for (const fragment of [...foreign, ...broken, "#mw7z.a.b"]) {
    await page.goto("about:blank");
    await page.goto(address + fragment);
    await page.locator(".verdict-line").waitFor();
    if (!foreign.includes(fragment)) {
      const wanted = fragment.startsWith("#mw7") ? "newer version" : "not whole";
      await eventually(page, () => page.locator(".opened").innerText().catch(() => ""), (said) => said.includes(wanted), fragment.slice(0, 40));
    }
    equal(await field(page).inputValue(), "D E F# my own", fragment.slice(0, 40));
  }
  const words = `${bad}/${bad}\nwas ${bad}\n${bad}\n`;
  const text = `X:1\nT:${bad}\nC:${bad}\nK:D\nDEF|\n`;
  await page.goto("about:blank");
  await page.goto(address + packed(`modewright 1\nlayout x\nchosen 99\nrows 255\nlesson 255 255 9 9 9 9 9 9 9\nmetre 99/0\npickup -1\nheader 0\nwords ${Buffer.byteLength(words)}\n\n${words}${text}`));
  await eventually(page, () => field(page).inputValue(), (found) => found === text, "the tune");
  await toLesson(page);
  await page.locator(".gone-words").waitFor();
  equal(await page.evaluate(() => window.hit), undefined, "a script ran");
  equal(await page.locator("#page img, #page script").count(), 0, "elements from a link");
});

check("a publisher is reminded of what the text leaves open", async (open) => {
  const page = await open();
  await toLesson(page);
  equal(await page.locator(".rights").count(), 0, "an invented tune");
  for (const [head, wanted] of [
    ["", "Composer,Source"],
    ["C:Trad.\nS:the tune class\n", ""],
    ["C:Aud Weir\nS:her own book\n", "Composer"],
    ["C:Aud Weir (invented), born 1970\n", ""],
    ["C:Aud Weir (1790-1851)\n", "Source"],
  ]) {
    await field(page).fill(`X:1\nT:Mine ${wanted}\n${head}K:D\nDEF GAB|\n`);
    await lessonOf(page, `Mine ${wanted}`.trim());
    const found = async () => (await page.locator(".rights li").allInnerTexts()).map((line) => line.split(":")[0]).join();
    await eventually(page, found, (said) => said === wanted, head);
  }
});

check("the code for a page holds the tune as text", async (open) => {
  const page = await open();
  await field(page).fill("X:1\nT:A < B & C </modewright-lesson>\nK:D\nDEF|\n");
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  await page.getByRole("button", { name: "Code for a page of yours" }).click();
  const code = await page.getByLabel("Code to put into a page").inputValue();
  const found = await page.evaluate((code) => {
    const other = new DOMParser().parseFromString(code, "text/html");
    return [other.querySelectorAll("modewright-lesson").length, other.querySelector("modewright-lesson").textContent.trim(), other.querySelector("script").type];
  }, code);
  equal(found[0], 1);
  equal(found[1], "X:1\nT:A < B & C </modewright-lesson>\nK:D\nDEF|", "the tune");
  equal(found[2], "module");
});

check("the lesson alone is printed, with the reader's words and without its buttons", async (open) => {
  const page = await open();
  await page.evaluate(() => { window.print = () => { window.printed = document.documentElement.className; }; });
  await toLesson(page);
  await write(page, "Bar 2", "Here the boat turns.\n\nBreathe.");
  await page.getByRole("button", { name: "Print the lesson" }).focus();
  await page.keyboard.press("Enter");
  equal(await page.evaluate(() => window.printed), "lesson-only");
  const bytes = await page.pdf({ preferCSSPageSize: true });
  await writeFile(path.join(pictures, "lesson.pdf"), bytes);
  const { pages, words } = await wordsOfPdf(bytes);
  equal(pages[0].join("x"), "595x842", "A4");
  const printed = words.join(" ");
  const wanted = await page.locator(".walk").evaluate((walk) => [...walk.querySelectorAll(".printed p, h4")].map((one) => one.textContent).join(" "));
  const plain = (text) => text.replaceAll(/\s+/g, "");
  expect(plain(printed).includes(plain("Here the boat turns. Breathe.")), printed.slice(0, 400));
  // Every word of the walk-through is on paper, in its order.
  const paper = plain(printed);
  let at = 0;
  for (const word of wanted.split(/\s+/).filter(Boolean)) {
    const next = paper.indexOf(word, at);
    expect(next >= 0, `“${word}” is not on paper after ${paper.slice(Math.max(0, at - 60), at)}`);
    at = next + word.length;
  }
  for (const never of ["Without your words", "Save as", "Back to the tune", "Tunes to try", "What you paste"]) {
    expect(!paper.includes(plain(never)), `${never} is on paper`);
  }
  // After printing, the whole page again.
  equal(await page.evaluate(() => document.documentElement.className), "", "after printing");
  return `${pages.length} pages, ${words.length} words`;
});

/** The command, which must be there already or is built. */
function command() {
  const found = ["release", "debug"].map((kind) => path.join(target, kind, "modewright")).find(existsSync);
  if (found) return found;
  execFileSync("cargo", ["build", "--quiet", "--locked", "--package", "modewright-cli"], { cwd: root, stdio: "inherit" });
  return path.join(target, "debug", "modewright");
}

check("everything that is saved is what the command writes, or opens in it", async (open) => {
  const page = await open();
  await toLesson(page);
  await write(page, "Bar 2", "Here the boat turns.");
  const folder = await mkdtemp(path.join(tmpdir(), "modewright-"));
  const run = (...words) => execFileSync(command(), words, { cwd: folder });
  const sizes = [];
  try {
    for (const [name, ending] of [["PDF", "pdf"], ["SVG", "svg"], ["HTML", "html"], ["Markdown", "md"], ["ABC", "abc"], ["MusicXML", "musicxml"], ["MIDI", "mid"], ["WAV", "wav"]]) {
      const button = page.locator(".saves").getByRole("button", { name, exact: true });
      const waiting = page.waitForEvent("download");
      if (ending === "md") {
        await button.focus();
        await page.keyboard.press("Enter");
      } else {
        await button.click();
      }
      const download = await waiting;
      equal(download.suggestedFilename(), `ebb-at-lantern-quay.${ending}`);
      await download.saveAs(path.join(folder, `page.${ending}`));
      await page.locator(".saves").getByText(`Saved as ebb-at-lantern-quay.${ending}.`).waitFor();
      sizes.push(`${ending} ${(await readFile(path.join(folder, `page.${ending}`))).length}`);
    }
    const of = (name) => readFile(path.join(folder, name));
    equal((await of("page.abc")).toString(), await field(page).inputValue(), "ABC");
    for (const ending of ["abc", "musicxml", "mid"]) {
      const found = JSON.parse(run("find", "--json", `page.${ending}`).toString());
      equal(`${found.home} ${found.mode}`, "E dorian", ending);
    }
    const markdown = (await of("page.md")).toString();
    expect(markdown.includes("**Bar 2.** Here the boat turns."), markdown.slice(0, 600));
    equal(run("lesson", "page.abc", "--words", "page.md").toString(), markdown, "Markdown");
    const rows = ["--rows", "note,count,words"];
    run("lesson", "page.abc", ...rows, "--words", "page.md", "-o", "own.html");
    run("lesson", "page.abc", ...rows, "-o", "own.svg");
    run("lesson", "page.abc", ...rows, "-o", "own.pdf");
    run("sound", "page.abc", "-o", "own.wav");
    run("convert", "page.abc", "-o", "own.musicxml");
    run("convert", "page.abc", "-o", "own.mid");
    for (const ending of ["html", "svg", "pdf", "wav", "musicxml", "mid"]) {
      expect((await of(`page.${ending}`)).equals(await of(`own.${ending}`)), `${ending} differs from the command's`);
    }
  } finally {
    await rm(folder, { recursive: true });
  }
  return sizes.join(", ");
});

check("letters are saved as ABC", async (open) => {
  const page = await open();
  await field(page).fill("D E F# G A B c# d");
  await page.locator("#lesson").scrollIntoViewIfNeeded();
  const waiting = page.waitForEvent("download");
  await page.locator(".saves").getByRole("button", { name: "ABC" }).click();
  const download = await waiting;
  equal(download.suggestedFilename(), "tune.abc");
  const text = await readFile(await download.path(), "utf8");
  expect(text.startsWith("X:1\n") && /\nK:/.test(text), text);
});

check("two windows with two tunes keep both tunes' words, and one tune's are one", async (open) => {
  const page = await open();
  const other = await page.context().newPage();
  await other.goto(page.url());
  await other.getByLabel("Tunes to try").selectOption("five-oars");
  await toLesson(page);
  await toLesson(other);
  await lessonOf(other, "Five Oars");
  await write(page, "Bar 2", "of the ebb");
  await passages(other).nth(1).fill("of the oars");
  await settled(other);
  await page.getByLabel("Tunes to try").selectOption("five-oars");
  await lessonOf(page, "Five Oars");
  await eventually(page, () => passages(page).nth(1).inputValue(), (said) => said === "of the oars", "the other window's words");
  await page.reload();
  await page.getByLabel("Tunes to try").selectOption("ebb-at-lantern-quay");
  await toLesson(page);
  await lessonOf(page, "Ebb at Lantern Quay");
  equal(await page.getByLabel("Bar 2", { exact: true }).inputValue(), "of the ebb");
});

check("a device that keeps nothing loses no words, and says so", async (open) => {
  const page = await open({ before: () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; } });
  await toLesson(page);
  equal(await page.locator(".lesson-place .refused").count(), 0, "told too soon");
  await write(page, "Bar 2", "Here the boat turns.");
  await page.locator(".lesson-place .refused").waitFor();
  equal(await page.getByLabel("Bar 2", { exact: true }).inputValue(), "Here the boat turns.");
  await page.getByLabel("Tunes to try").selectOption("five-oars");
  await page.getByLabel("Tunes to try").selectOption("ebb-at-lantern-quay");
  await lessonOf(page, "Ebb at Lantern Quay");
  equal(await page.getByLabel("Bar 2", { exact: true }).inputValue(), "Here the boat turns.", "within the visit");
});
