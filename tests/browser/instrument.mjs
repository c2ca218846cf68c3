// The instrument: which, whether the tune lies on it, its picture, and moving the tune.

import { check, equal, eventually, expect, settled } from "./harness.mjs";

const field = (page) => page.locator(".field textarea");
const verdict = (page) => page.locator(".lies-verdict");
const choice = (page) => page.getByLabel("Who plays it?");
const height = (page, at) => page.locator(".heights li").nth(at);

/** Goes to the instrument and waits until instruments can be chosen. */
export async function toInstrument(page) {
  await page.locator("#instrument").scrollIntoViewIfNeeded();
  await choice(page).locator("optgroup").first().waitFor({ state: "attached" });
}

/** Chooses an instrument and waits until it is told of. */
export async function choose(page, id) {
  await toInstrument(page);
  await choice(page).selectOption(id);
  await page.locator(`.lies[aria-busy="false"]`).waitFor();
}

const OWN = {
  format: 1, id: "quay-pipe", name: "quay pipe", family: "quay pipe", size: "D", certainty: "practice",
  source: "invented", range: ["D4", "B5"],
};
const file = (name, text) => ({ name, mimeType: "application/json", buffer: Buffer.from(text) });
const open = (page, ...all) => page.locator(".instrument-place input[type=file]").setInputFiles(file(...all));

check("instruments are asked for when their place is near, and not before", async (visit) => {
  const page = await visit();
  await page.locator(".staff svg").waitFor();
  await page.getByRole("button", { name: "darker" }).click();
  await page.waitForTimeout(800);
  equal(await choice(page).locator("optgroup").count(), 0, "instruments before");
  await toInstrument(page);
  const groups = await choice(page).locator("optgroup").evaluateAll((all) => all.map((one) => one.label));
  expect(groups.includes("tin whistle") && groups.includes("voice") && new Set(groups).size === groups.length, groups.join());
  expect(await choice(page).locator("option").count() > 60, "few instruments");
  equal(await page.locator(".lies").count(), 0, "nothing is chosen yet");
});

check("an instrument by pointer: verdict, picture, row under the staff, the note that is pointed at", async (visit) => {
  const page = await visit();
  await choose(page, "tin-whistle-d");
  expect((await verdict(page).innerText()).startsWith("It lies on the tin whistle in D"), await verdict(page).innerText());
  // Each note of the tune has a pipe with six holes, and home is marked.
  const pipes = await page.locator(".instrument-picture .spot").count();
  equal(await page.locator(".instrument-picture .hole").count(), pipes * 6, "holes");
  expect(await page.locator(".instrument-picture .spot.home").count() >= 2, "home");
  expect((await page.locator(".instrument-figure figcaption").innerText()).includes("A house is home."), "no legend");
  expect((await page.locator(".lies .aside").last().innerText()).includes("sound an octave higher"), "no remark");
  await eventually(page, () => page.locator(".staff .cell circle, .staff .cell path").count(), (count) => count > 0, "holes under the staff");
  // A note has thin parts; a click near it is enough.
  await page.locator(".staff .note").first().evaluate((note) => note.scrollIntoView({ block: "center" }));
  const box = await page.locator(".staff .note").first().boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await eventually(page, () => page.locator(".pointed-said").innerText(), (said) => said.includes("Played ●●● ●●●."), "the way");
  await page.getByLabel("fingering", { exact: true }).first().uncheck();
  await eventually(page, () => page.locator(".staff").innerText(), (said) => !said.includes("fingering"), "the row");
  equal(await page.getByLabel("bellows", { exact: true }).count(), await page.locator(".lesson-choices").getByLabel("bellows", { exact: true }).count(), "a whistle has no bellows");
});

check("a move changes the text, tells it, and goes back", async (visit) => {
  const page = await visit();
  const before = await field(page).inputValue();
  await choose(page, "anglo-20-c-g");
  expect((await verdict(page).innerText()).startsWith("It does not lie on"), await verdict(page).innerText());
  expect((await page.locator(".lacks").innerText()).includes("C♯"), "what is missing");
  expect(/bars? \d/.test(await page.locator(".lacks").innerText()), "where it is missing");
  const told = await height(page, 0).locator(".height").innerText();
  await height(page, 0).getByRole("button", { name: "Move", exact: true }).click();
  await eventually(page, () => verdict(page).innerText(), (said) => /^(It lies|Every note is) on/.test(said), "the verdict");
  const after = await field(page).inputValue();
  expect(after !== before && after.includes("Ebb at Lantern Quay"), "the text");
  expect(told.startsWith(`In ${await page.locator(".hub-home").textContent()}`), `${told} and the wheel`);
  expect((await page.locator(".told-move").innerText()).length > 10, "nothing is told");
  expect((await page.locator(".heights").innerText()).includes("it stands here"), "where it stands");
  await page.getByRole("button", { name: "Text before" }).click();
  await eventually(page, () => field(page).inputValue(), (found) => found === before, "back");
  await eventually(page, () => verdict(page).innerText(), (said) => said.startsWith("It does not lie on"), "the verdict after");
});

check("a move with folded notes marks them; a move of the second tune leaves the first alone", async (visit) => {
  const page = await visit();
  const first = "X:1\nT:Ebb (invented)\nL:1/4\nK:D\nDEFG|\n";
  await field(page).fill(`${first}\nX:2\nT:Flood (invented)\nL:1/4\nK:D\nDFAd|f'afd|D,A,DF|`);
  await page.locator(".tune-list li button").nth(1).click().catch(() => {});
  const list = page.locator(".tune-list li");
  expect(await list.count() === 2, "two tunes");
  await choose(page, "voice-alto");
  const fold = page.getByRole("button", { name: /fold/i }).first();
  await fold.click();
  await eventually(page, () => field(page).inputValue(), (text) => text.includes("folded"), "folded notes");
  expect((await field(page).inputValue()).startsWith(first), "the first tune");
});

check("an instrument by keys alone", async (visit) => {
  const page = await visit();
  const before = await field(page).inputValue();
  await toInstrument(page);
  await choice(page).focus();
  await page.keyboard.type("anglo concertina C/G, 20");
  await page.keyboard.press("Enter");
  await page.locator(`.lies[aria-busy="false"]`).waitFor();
  const move = height(page, 0).getByRole("button", { name: "Move", exact: true });
  for (let at = 0; at < 14 && !(await move.evaluate((one) => one === document.activeElement)); at += 1) await page.keyboard.press("Tab");
  expect(await move.evaluate((one) => one.matches(":focus-visible")), "the button is not reached");
  equal(await move.getAttribute("aria-describedby"), "height-0", "what the button is about");
  await page.keyboard.press("Enter");
  await eventually(page, () => field(page).inputValue(), (text) => text !== before, "the text");
});

check("styles, bellows, and the chord note of a long final", async (visit) => {
  const page = await visit();
  await choose(page, "melodeon-d-g");
  const path = () => page.locator(".lies").innerText();
  expect((await path()).includes("Along the row, the path costs"), await path());
  await page.locator(".style select").selectOption("across-the-rows");
  await eventually(page, path, (said) => said.includes("Across the rows, the path costs"), "the style");
  await page.locator(".rows").first().getByLabel("bellows", { exact: true }).check();
  await eventually(page, () => page.locator(".staff").innerText(), (said) => said.includes("bellows"), "the row");
  await choose(page, "anglo-30-c-g");
  await eventually(page, path, (said) => /With the \S+ in bars? [^.]+ the free hand can add /.test(said), "the chord");
});

check("which of mine plays it", async (visit) => {
  const page = await visit();
  await choose(page, "anglo-20-c-g");
  await page.getByLabel("I have this one").check();
  await page.getByText("None of yours plays all of it where it stands").waitFor();
  await choose(page, "fiddle");
  await page.getByLabel("I have this one").check();
  await page.getByText("Of yours, it is played where it stands by the fiddle").waitFor();
  await page.reload();
  await page.locator(".verdict-line").waitFor();
  await page.getByText("Of yours, it is played where it stands by the fiddle").waitFor();
  equal(await choice(page).inputValue(), "fiddle", "the choice after a reload");
  expect(await page.getByLabel("I have this one").isChecked(), "mine after a reload");
});

check("an instrument of one's own: right, wrong, kept, put away", async (visit) => {
  const page = await visit();
  await toInstrument(page);
  await open(page, "bad.json", `{"format": 1, "id": "quay-pipe",\n "name": "quay pipe", "range": ["D4", "H5"]}`);
  const told = page.locator(".told-move");
  await eventually(page, () => told.innerText(), (said) => /^bad\.json: .*line 2, column \d+.*H5.*Please /s.test(said), "what is wrong");
  equal(await choice(page).inputValue(), "", "nothing is chosen");
  await open(page, "own.json", JSON.stringify(OWN));
  await eventually(page, () => choice(page).inputValue(), (id) => id === "quay-pipe", "the choice");
  await eventually(page, () => verdict(page).innerText(), (said) => said.includes("quay pipe"), "the verdict");
  equal(await told.innerText(), "", "the old trouble");
  await page.reload();
  await page.locator(".verdict-line").waitFor();
  await eventually(page, () => verdict(page).innerText(), (said) => said.includes("quay pipe"), "after a reload");
  equal(await choice(page).inputValue(), "quay-pipe", "the choice after a reload");
  await page.getByRole("button", { name: "Put your own away" }).click();
  await settled(page);
  equal(await choice(page).inputValue(), "", "put away");
  equal(await page.locator(".lies").count(), 0, "nothing is told");
  const bad = "<img src=x onerror=window.hit=1>";
  await open(page, "hostile.json", JSON.stringify({ ...OWN, name: bad, remarks: [bad] }));
  await eventually(page, () => verdict(page).innerText(), (said) => said.includes(bad), "a name stays text");
  equal(await page.evaluate(() => window.hit), undefined);
});

check("instruments that cannot be loaded say so, and can be tried again", async (visit) => {
  const page = await visit({ serviceWorkers: "block", forgives: /engine-|Failed to (load|fetch)|Service Worker/ });
  await page.route(/\/engine-/, (route) => route.abort());
  await page.locator("#instrument").scrollIntoViewIfNeeded();
  const alert = page.locator(".not-there");
  await alert.waitFor();
  expect((await alert.innerText()).includes("Is there a network?"), await alert.innerText());
  await page.unroute(/\/engine-/);
  await alert.getByRole("button", { name: "Try again" }).click();
  await choose(page, "fiddle");
  equal(await alert.count(), 0, "still told");
});

check("an answer of an instrument that comes late is dropped", async (visit) => {
  const page = await visit({ serviceWorkers: "block", forgives: /Service Worker/ });
  await toInstrument(page);
  await page.evaluate(async () => {
    const real = window.modewrightPart;
    // The first question is answered when it is told to be, all others at once.
    window.modewrightPart = async (name) => {
      window.modewrightPart = real;
      await new Promise((done) => { window.release = done; });
      return real(name);
    };
    window.seen = [];
    new MutationObserver(() => {
      const said = document.querySelector(".lies-verdict")?.textContent;
      if (said && said !== window.seen.at(-1)) window.seen.push(said);
    }).observe(document.querySelector(".instrument-place"), { childList: true, subtree: true, characterData: true });
  });
  await choice(page).selectOption("anglo-20-c-g");
  await eventually(page, () => page.evaluate(() => typeof window.release), (kind) => kind === "function", "the first question");
  await choice(page).selectOption("fiddle");
  await page.getByText("It lies on the fiddle").waitFor();
  await page.evaluate(() => window.release());
  await page.waitForTimeout(600);
  const seen = await page.evaluate(() => window.seen);
  expect(seen.every((said) => said.includes("fiddle")), seen.join(" / "));
});

check("an instrument on a phone: by touch, with room for a finger", async (visit) => {
  const page = await visit({ viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true });
  await toInstrument(page);
  await choice(page).tap();
  await choose(page, "harmonica-c");
  const small = await page.locator(".instrument-place").evaluate((place) => {
    const all = [...place.querySelectorAll("button, select, label")];
    const low = all.filter((one) => one.getBoundingClientRect().height < 44);
    return low.map((one) => `${one.tagName} ${one.textContent.slice(0, 20)} ${one.getBoundingClientRect().height}`);
  });
  equal(small.join("; "), "", "too small for a finger:");
  const before = await field(page).inputValue();
  await page.locator(".heights").getByRole("button", { name: "Move", exact: true }).first().tap();
  await eventually(page, () => field(page).inputValue(), (text) => text !== before, "the text");
});
