// Text in, answer out: paste, files, lists, what is kept, what is hostile.

import { check, equal, eventually, expect, settled, zip } from "./harness.mjs";

const line = (page) => page.locator(".verdict-line").innerText();
/** The verdict when the page has drawn it. */
const verdict = async (page) => {
  await settled(page);
  return line(page);
};
/** Waits for a verdict that says something. */
const saysVerdict = (page, part) => eventually(page, () => line(page), (said) => said.includes(part), `no “${part}”`);
const field = (page) => page.locator(".field textarea");

const MIXOLYDIAN = `X:1
T:Pasted
M:4/4
L:1/8
K:Amix
A2AB c2cd|e2ed cBAG|A2AB cdef|edcB A4|a2ag e2ed|cdef gedc|A2AB c2BG|A2A2 A4|
`;

/** Enough tunes for a list. */
const BOOK = ["M:6/8", "", ...Array.from({ length: 300 }, (_, i) =>
  `X:${i + 1}\nT:${i === 41 ? "The Forty-Second Landing" : `Tide ${i + 1}`}\nL:1/8\nK:${i === 41 ? "Em" : "G"}\n${i === 41 ? "EGB BAG|EFG FED|EGB e2d|BAG E3|" : "GAB d2B|AGA BGE|GAB d2e|dBA G3|"}\n`)].join("\n");

async function drop(page, name, text) {
  const data = await page.evaluateHandle(([name, text]) => {
    const data = new DataTransfer();
    data.items.add(new File([text], name, { type: "text/plain" }));
    return data;
  }, [name, text]);
  await page.dispatchEvent(".page", "dragover", { dataTransfer: data });
  await page.locator(".drop").waitFor();
  await page.dispatchEvent(".field textarea", "drop", { dataTransfer: data });
  await page.locator(".drop").waitFor({ state: "detached" });
}

check("a first visit answers at once", async (open) => {
  const page = await open();
  const said = await verdict(page);
  expect(said.includes("E Dorian") && said.includes("D major with E as home"), said);
  expect(await page.getByText("Class and tune are invented").isVisible(), "the demo is not marked as invented");
  equal(await field(page).getAttribute("autocapitalize"), "off");
  equal(await field(page).getAttribute("autocorrect"), "off");
});

check("a pasted tune gets a verdict", async (open) => {
  const page = await open({ permissions: ["clipboard-read", "clipboard-write"] });
  await page.evaluate((text) => navigator.clipboard.writeText(text), MIXOLYDIAN);
  await field(page).click();
  await page.keyboard.press("Control+A");
  await page.keyboard.press("Control+V");
  await saysVerdict(page, "A Mixolydian");
});

check("plain letters get a verdict, and an empty field asks for a tune", async (open) => {
  const page = await open();
  await page.getByRole("button", { name: "Clear" }).click();
  await saysVerdict(page, "Write or paste");
  await field(page).pressSequentially("D E F G A B c d c B A G F E D D");
  await saysVerdict(page, "D Dorian");
});

check("every invented tune can be chosen", async (open) => {
  const page = await open();
  const choice = page.getByLabel("Tunes to try");
  const ids = await choice.locator("option:not([value=''])").evaluateAll((all) => all.map((one) => one.value));
  expect(ids.length >= 10, `${ids.length} tunes`);
  const said = new Set();
  for (const id of ids) {
    await choice.selectOption(id);
    said.add(await verdict(page));
    equal(await page.locator(".problems").count(), 0, id);
  }
  expect(said.size > 8, "the verdicts hardly differ");
  return `${ids.length} tunes`;
});

check("problems are marked in the text and told beside it", async (open) => {
  const page = await open();
  await field(page).fill("X:1\nL:1/8\nM:4/4\nK:D\nDEFG @ ABcd|d2 ^x A2 F2|D8|\n");
  const place = page.locator(".problems .place").first();
  await place.waitFor();
  expect(await page.locator(".field .copy mark.error, .copy mark.warning").count() > 0, "nothing is marked");
  await place.click();
  const at = await field(page).evaluate((field) => field.selectionStart);
  expect(at > 0, "the place does not lead into the text");
  // The marks lie under their letters: both layers have the same size.
  const [copy, text] = await Promise.all([".field .copy", ".field textarea"].map((one) => page.locator(one).boundingBox()));
  equal(Math.round(copy.height), Math.round(text.height), "height");
  equal(Math.round(copy.width), Math.round(text.width), "width");
});

check("a dropped file is read", async (open) => {
  const page = await open();
  await drop(page, "pasted.abc", MIXOLYDIAN);
  await saysVerdict(page, "A Mixolydian");
});

check("a file of another kind is refused kindly and nothing is lost", async (open) => {
  const page = await open();
  await field(page).fill("D E F# my own");
  await page.setInputFiles("input[type=file]", { name: "tune.abc", mimeType: "text/plain", buffer: Buffer.from("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "latin1") });
  await page.locator(".refused:not(:empty)").waitFor();
  const said = await page.locator(".refused").innerText();
  expect(said.includes("tune.abc") && said.includes("a picture"), said);
  // What begins as a score and is none.
  await page.setInputFiles("input[type=file]", { name: "odd.musicxml", mimeType: "text/xml", buffer: Buffer.from("<?xml version=\"1.0\"?><rowing/>") });
  await eventually(page, () => page.locator(".refused").innerText(), (text) => text.includes("odd.musicxml") && text.includes("Please"), "the odd score");
  equal(await field(page).inputValue(), "D E F# my own");
});

/** A MIDI file: its bytes and the tune "D E F# G | A2 D2" in crotchets and minims. */
function midi() {
  const note = (pitch, length) => [0, 0x90, pitch, 80, ...(length > 127 ? [0x80 | (length >> 7), length & 127] : [length]), 0x80, pitch, 0];
  const track = [0, 0xff, 3, 4, ...Buffer.from("Quay"), 0, 0xff, 0x58, 4, 4, 2, 24, 8, ...[62, 64, 66, 67].flatMap((pitch) => note(pitch, 96)), ...[69, 62].flatMap((pitch) => note(pitch, 192)), 0, 0xff, 0x2f, 0];
  const size = (n, bytes) => Array.from({ length: bytes }, (_, i) => (n >> (8 * (bytes - 1 - i))) & 255);
  return Buffer.from([...Buffer.from("MThd"), ...size(6, 4), 0, 0, 0, 1, 0, 96, ...Buffer.from("MTrk"), ...size(track.length, 4), ...track]);
}

check("a MIDI file becomes ABC, by its content and not its name", async (open) => {
  const page = await open();
  await field(page).fill("D E F# my own");
  await page.setInputFiles("input[type=file]", { name: "quay.txt", mimeType: "text/plain", buffer: midi() });
  await eventually(page, () => field(page).inputValue(), (text) => text.startsWith("X:"), "no ABC");
  const abc = await field(page).inputValue();
  expect(abc.includes("T:Quay") && /D ?E ?\^?F ?G/.test(abc), abc);
  await page.getByRole("button", { name: "Text before" }).click();
  await settled(page);
  equal(await field(page).inputValue(), "D E F# my own", "the way back");
});

check("a packed score becomes ABC, and what is said of it is told", async (open) => {
  const page = await open();
  const pitch = (step, alter) => `<note><pitch><step>${step}</step>${alter ? `<alter>${alter}</alter>` : ""}<octave>4</octave></pitch><duration>1</duration><voice>1</voice><type>quarter</type></note>`;
  const part = (id, notes) => `<part id="${id}"><measure number="1"><attributes><divisions>1</divisions><key><fifths>1</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>${notes}</measure></part>`;
  const score = `<?xml version="1.0"?><score-partwise version="4.0"><work><work-title>Gangplank</work-title></work><part-list><score-part id="P1"><part-name>Fiddle</part-name></score-part><score-part id="P2"><part-name>Bass</part-name></score-part></part-list>${part("P1", pitch("G") + pitch("A") + pitch("B") + pitch("F", 1))}${part("P2", pitch("G") + pitch("D") + pitch("G") + pitch("D"))}</score-partwise>`;
  const container = "<?xml version=\"1.0\"?><container><rootfiles><rootfile full-path=\"score.xml\"/></rootfiles></container>";
  await page.setInputFiles("input[type=file]", { name: "gangplank.mxl", mimeType: "application/octet-stream", buffer: zip({ "META-INF/container.xml": container, "score.xml": score }) });
  await eventually(page, () => field(page).inputValue(), (text) => text.includes("T:Gangplank"), "no ABC");
  const told = await page.locator(".opened").innerText();
  expect(told.includes("Fiddle") && told.includes("Bass"), told);
  equal(await page.locator(".refused:not(:empty)").count(), 0);
});

check("letters without bars take a metre and a pickup from the reader", async (open) => {
  const page = await open();
  await field(page).fill("D E F# G A B c# d e d c# B A G F# E D");
  await settled(page);
  await page.locator(".given").getByLabel("Metre").focus();
  await page.keyboard.type("6/8");
  await eventually(page, () => page.locator(".staff .barline, .staff svg").count(), (n) => n > 0, "no staff");
  await page.locator(".given").getByLabel("Pickup").selectOption("a quaver (eighth note)");
  await settled(page);
  await page.reload();
  await page.locator(".verdict-line").waitFor();
  equal(await page.locator(".given").getByLabel("Metre").inputValue(), "6/8", "after reload");
  await page.getByLabel("Tunes to try").selectOption("five-oars");
  await settled(page);
  equal(await page.locator(".given").getByLabel("Metre").count(), 0, "ABC says it itself");
  await page.getByRole("button", { name: "Text before" }).click();
  await settled(page);
  equal(await page.locator(".given").getByLabel("Metre").inputValue(), "6/8", "the way back");
});

check("a file with many tunes gives a list to search", async (open) => {
  const page = await open();
  await page.setInputFiles("input[type=file]", { name: "winter.abc", mimeType: "text/plain", buffer: Buffer.from(BOOK) });
  await page.locator(".tune-list").waitFor();
  expect((await page.locator(".tune-list-head").innerText()).includes("300 tunes"), "no count");
  await page.getByLabel("Search by title or number").fill("second forty");
  await settled(page);
  equal(await page.locator(".tune-list li").count(), 1, "rows");
  await page.locator(".tune-list li button").click();
  await settled(page);
  expect((await field(page).inputValue()).startsWith("X:42\n"), "the tune is not in the field");
  await saysVerdict(page, "E minor");
  await page.getByRole("button", { name: "Put the list away" }).click();
  await settled(page);
  equal(await page.locator(".tune-list").count(), 0, "list");
});

check("nothing typed is lost: back, forward, reload", async (open) => {
  const page = await open();
  await field(page).fill("G A B c d e f# g \"mine\"");
  await page.getByLabel("Tunes to try").selectOption("five-oars");
  await page.getByRole("button", { name: "Text before" }).click();
  await settled(page);
  equal(await field(page).inputValue(), "G A B c d e f# g \"mine\"");
  await page.getByRole("button", { name: "Text after" }).click();
  await settled(page);
  expect((await field(page).inputValue()).includes("Five Oars"), "forward");
  await page.getByRole("button", { name: "Text before" }).click();
  await settled(page);
  await page.getByRole("button", { name: "by pitch" }).click();
  await page.reload();
  await page.locator(".verdict-line").waitFor();
  equal(await field(page).inputValue(), "G A B c d e f# g \"mine\"", "after reload");
  equal(await page.getByRole("button", { name: "by pitch" }).getAttribute("aria-pressed"), "true");
});

for (const [name, before] of [
  ["that throws", () => Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } })],
  ["that is full", () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; }],
]) {
  check(`storage ${name} is no error`, async (open) => {
    const page = await open({ before });
    await field(page).fill("D E F# G A B c# d A F# D");
    await saysVerdict(page, "D");
  });
}

check("hostile text stays text", async (open) => {
  const page = await open();
  const bad = "<img src=x onerror=window.hit=1><script>window.hit=1</script>";
  const tune = (n) => `X:${n}\nT:${bad}\nC:${bad}\nN:${bad}\nR:${bad}\nL:1/8\nK:D ${bad}\n"${bad}"DEFG ABcd|d"javascript:hit"cBA ${bad}GFED|\nw:${bad}\n`;
  await field(page).fill(tune(1));
  await page.locator(".title").waitFor();
  equal(await page.locator(".title").innerText(), bad);
  await page.setInputFiles("input[type=file]", { name: `${bad.replaceAll("/", "")}.abc`, mimeType: "text/plain", buffer: Buffer.from(`${tune(1)}\n${tune(2)}`) });
  await page.locator(".tune-list").waitFor();
  await page.setInputFiles("input[type=file]", { name: "<b>x.png", mimeType: "image/png", buffer: Buffer.from("\x89PNG\r\n\x1a\n", "latin1") });
  await page.locator(".refused:not(:empty)").waitFor();
  equal(await page.evaluate(() => window.hit), undefined);
  equal(await page.locator("#page img, #page script, #page b").count(), 0, "elements from text");
});

check("a long or odd text neither stops nor breaks the page", async (open) => {
  const page = await open();
  for (const text of ["[".repeat(5000), "\u{1F41F}\u0000\u202e|:".repeat(300), "X:1\nK:C\n" + "C/99999999D99999999".repeat(200), "A".repeat(20000)]) {
    await field(page).fill(text);
    expect((await verdict(page)).length > 0, "no verdict");
  }
});

check("trying another home and seeing reasons", async (open) => {
  const page = await open();
  const first = await verdict(page);
  await page.locator(".homes button", { hasText: /^A$/ }).click();
  await settled(page);
  expect((await page.locator(".what-if").innerText()).startsWith("If home were A"), "what if");
  equal(await verdict(page), first, "verdict");
  equal(await page.locator(".hub-home").textContent(), "A");
  await page.locator(".reasons button").first().click();
  await settled(page);
  expect(await page.locator(".field .copy mark.reason").count() > 0, "no note is marked");
});
