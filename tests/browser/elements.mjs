// The custom elements in plain pages: one program for all, nothing moves, nothing breaks.

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import path from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import { check, dist, equal, eventually, expect, pictures, root, settled } from "./harness.mjs";

const budgets = JSON.parse(await readFile(path.join(root, "tests/browser/budgets.json"), "utf8"));
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const TUNE = `X:1
T:Ebb at Lantern Quay
M:6/8
L:1/8
K:EDor
|:D|EGB BAB|c2B AFD|EGB BAG|F2D DEF|EGB BAB|c2d e2d|cBA GFD|E3 E2:|
`;
const STRICT = { "Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self'; connect-src 'self'" };

/** A page with something in its body; scripts and styles only from files. */
const plain = (body) => `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>A page</title><link rel="icon" href="icon.svg"><link rel="stylesheet" href="example.css"><script src="modewright-elements.js"></script></head><body><main>${body}</main></body></html>`;

/** Opens a page of its own beside the elements' script. */
const of = (open, body, options = {}) => open({ html: plain(body), headers: STRICT, ...options });

/** Waits until an element stands. */
const stands = (page, selector, nth = 0) =>
  page.waitForFunction(([selector, nth]) => {
    const frame = document.querySelectorAll(selector)[nth]?.shadowRoot?.querySelector(".frame");
    return frame && !frame.classList.contains("loading");
  }, [selector, nth]);

/** Scrolls to the end and back, until every element stands. */
async function allStand(page) {
  await page.evaluate(async () => {
    for (let top = 0; top < document.documentElement.scrollHeight; top += innerHeight / 2) {
      scrollTo(0, top);
      await new Promise((done) => setTimeout(done, 60));
    }
  });
  await page.waitForFunction(() =>
    [...document.querySelectorAll("modewright-wheel,modewright-tune,modewright-ask,modewright-lesson")]
      .every((one) => !one.shadowRoot.querySelector(".loading")));
  await page.evaluate(() => scrollTo(0, 0));
  await settled(page);
}

const hub = async (page, nth = 0) => {
  await settled(page);
  const one = page.locator("modewright-wheel").nth(nth);
  return `${await one.locator(".hub-home").textContent()} ${await one.locator(".hub-mode").textContent()}`;
};

/** The most layout shift that is no shift to a reader; good pages may have ten times as much. */
const MOST_SHIFT = 0.01;

/** What a page has asked for of ours, packed, in KiB by the name of the program. */
async function weights(page) {
  const names = await page.evaluate(() => performance.getEntriesByType("resource").map((one) => one.name));
  const weights = {};
  for (const name of names.filter((name) => /modewright-[^/]*\.(js|wasm)$/.test(name))) {
    const body = await (await page.request.get(name)).body();
    const small = brotliCompressSync(body, {
      params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: body.length },
    });
    const [, program] = /modewright-([a-z]+)/.exec(name);
    weights[program] = (weights[program] ?? 0) + small.length / 1024;
  }
  return weights;
}

// What is loaded in all until everything of such a page works; every page of elements is one of them.
const PAGES = {
  elements: '<modewright-wheel home="E" mode="dorian">A wheel.</modewright-wheel><modewright-tune>TUNE</modewright-tune><modewright-ask>A box.</modewright-ask>',
  lesson: "<modewright-lesson>TUNE</modewright-lesson><modewright-tune>TUNE</modewright-tune>",
  engine: '<modewright-tune instrument="tin-whistle-d">TUNE</modewright-tune>',
};
for (const [name, body] of Object.entries(PAGES)) {
  check(`elements: size of all that is loaded, ${name}`, async (open) => {
    const page = await of(open, body.replaceAll("TUNE", TUNE));
    await allStand(page);
    if (name === "engine") await eventually(page, () => page.locator(".staff").innerHTML(), (svg) => /fingering/.test(svg), "no fingering");
    const found = await weights(page);
    equal(Object.keys(found).sort().join(), [...new Set(["elements", name])].sort().join());
    const sum = Object.values(found).reduce((a, b) => a + b);
    const [most, target] = [budgets.elements_kib_brotli[name], budgets.elements_kib_brotli_target];
    const said = `${sum.toFixed(1)} KiB of ${most}${name === "elements" ? `, target ${target}` : ""} (${Object.entries(found).map(([one, kib]) => `${one} ${kib.toFixed(1)}`).join(", ")})`;
    expect(sum <= most, said);
    return said;
  });
}

check("elements: fifty on a page share one program, and nothing moves", async (open) => {
  const kinds = [
    (i) => `<modewright-wheel home="${"CDEFGAB"[i % 7]}" mode="dorian" view="${i % 2 ? "pitch" : "fifths"}">A wheel.</modewright-wheel>`,
    (i) => `<modewright-tune rows="${i % 3 ? "note" : "note,degree,count"}">${TUNE}</modewright-tune>`,
    () => "<modewright-ask>A box.</modewright-ask>",
    () => `<modewright-lesson>${TUNE}</modewright-lesson>`,
    () => `<modewright-tune show="verdict">${TUNE}</modewright-tune>`,
  ];
  const body = Array.from({ length: 50 }, (_, i) => `<p>Paragraph ${i}: what a lesson says between its tunes.</p>${kinds[i % 5](i)}`).join("");
  const before = () => {
    window.instances = 0;
    window.shifts = [];
    for (const name of ["instantiate", "instantiateStreaming"]) {
      const old = WebAssembly[name];
      WebAssembly[name] = (...all) => {
        window.instances += 1;
        return old(...all).then((made) => {
          const { memory, mount } = (made.instance ?? made).exports;
          if (mount) window.memory = memory;
          return made;
        });
      };
    }
    new PerformanceObserver((list) => {
      for (const one of list.getEntries()) window.shifts.push({ value: one.value, at: Math.round(one.startTime), by: one.sources.map((s) => `${s.node?.nodeName} ${JSON.stringify(s.previousRect)} ${JSON.stringify(s.currentRect)}`) });
    }).observe({ type: "layout-shift", buffered: true });
  };
  const page = await of(open, body, { before });
  const start = Date.now();
  await allStand(page);
  const time = Date.now() - start;
  const found = await page.evaluate(() => ({
    instances: window.instances,
    shifts: window.shifts,
    wasm: window.memory.buffer.byteLength,
    heap: performance.memory?.usedJSHeapSize ?? 0,
    all: document.querySelectorAll(":defined:is(modewright-wheel,modewright-tune,modewright-ask,modewright-lesson)").length,
  }));
  equal(found.all, 50);
  // One for all elements, and the part that tells the walks of the lessons.
  equal(found.instances, 2, "instances");
  // A line of text that is laid out late on a busy machine moves what is below it by itself.
  const moved = found.shifts.reduce((sum, one) => sum + one.value, 0);
  expect(moved <= MOST_SHIFT, JSON.stringify(found.shifts.slice(0, 3)));
  return `all ready after ${time} ms, ${(found.wasm / 1048576).toFixed(1)} MiB in the program, ${(found.heap / 1048576).toFixed(1)} MiB in JavaScript, shift ${moved.toFixed(3)}`;
});

for (const [name, viewport] of [["wide", { width: 1200, height: 900 }], ["phone", { width: 360, height: 740 }]]) {
  check(`elements: nothing moves on the first screen, ${name}`, async (open) => {
    for (const element of [
      '<modewright-wheel home="E" mode="dorian">A wheel.</modewright-wheel>',
      `<modewright-tune rows="note,degree">${TUNE}</modewright-tune>`,
      `<modewright-tune show="verdict,sure">${TUNE}</modewright-tune>`,
      "<modewright-ask>A box.</modewright-ask>",
    ]) {
      const before = () => {
        window.shift = 0;
        new PerformanceObserver((list) => {
          for (const one of list.getEntries()) window.shift += one.value;
        }).observe({ type: "layout-shift", buffered: true });
      };
      const page = await of(open, `${element}<p>What follows.</p>`.repeat(3), { before, viewport });
      await stands(page, element.match(/modewright-\w+/)[0]);
      await page.waitForTimeout(300);
      const moved = await page.evaluate(() => window.shift);
      expect(moved <= MOST_SHIFT, `${moved}: ${element.slice(0, 60)}`);
    }
  });
}

for (const colorScheme of ["light", "dark"]) {
  check(`elements: accessible, ${colorScheme}`, async (open) => {
    const page = await open({ at: "elements/example.html", until: "modewright-wheel .hub", colorScheme, reducedMotion: "reduce" });
    await allStand(page);
    await page.locator("modewright-ask textarea").fill("D E F G A B c d c B A G F E D");
    await page.locator("modewright-ask").getByRole("button", { name: "Show it on the wheel" }).click();
    await page.locator("modewright-wheel").first().getByRole("button", { name: "darker" }).click();
    await settled(page);
    await page.evaluate(axe);
    const found = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
    const said = found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 4).join(", ")}`);
    equal(said.join("; "), "", "");
  });
  for (const [name, viewport] of [["wide", { width: 1280, height: 900 }], ["phone", { width: 360, height: 740 }]]) {
    check(`elements: pictures, ${name}, ${colorScheme}`, async (open) => {
      const page = await open({ at: "elements/example.html", until: "modewright-wheel .hub", colorScheme, viewport, reducedMotion: "reduce" });
      await allStand(page);
      await page.waitForTimeout(300);
      await page.screenshot({ path: path.join(pictures, `elements-${name}-${colorScheme}.png`), fullPage: true });
    });
  }
}

check("elements: work under a strict policy sent as a header", async (open) => {
  const page = await of(open, `<modewright-lesson>${TUNE}</modewright-lesson>`, { forgives: /inline style|policy: style-src/ });
  await stands(page, "modewright-lesson");
  expect((await page.locator("modewright-lesson .verdict-line").innerText()).includes("E Dorian"), "no verdict");
  expect(await page.locator("modewright-lesson .walk li").count() > 1, "no walk-through");
  expect(await page.locator("modewright-lesson .wheel-drawing").isVisible(), "no wheel");
  // The policy does hold.
  const held = await page.evaluate(() => {
    const style = document.createElement("style");
    style.textContent = "main { color: red }";
    document.head.append(style);
    return style.sheet === null;
  });
  expect(held, "inline styles are allowed");
});

check("elements: hostile content is shown as text", async (open) => {
  const evil = [
    "X:1\nT:&lt;img src=x onerror=window.broken=1>\nT:&lt;script>window.broken=1&lt;/script>\nC:\"&lt;svg onload=window.broken=1>\nK:D\nw:&lt;b>x&lt;/b>\nDEF|\"&lt;i onclick=broken()>\"G4|\nw:&lt;img src=x onerror=window.broken=1>\n",
    `X:1\nT:${"long ".repeat(4000)}\nK:C\n${"CDEF ".repeat(400)}|\n`,
    "K:\u202e\u0000\uffff\n|||||[[[[((((",
    "",
  ];
  const body = evil.flatMap((text) => [`<modewright-tune>${text}</modewright-tune>`, `<modewright-lesson rows="words,note" show="title,staff,verdict,told,range,wheel,walk">${text}</modewright-lesson>`]).join("");
  const page = await of(open, `${body}<modewright-wheel home="<b>" mode="'&quot;><i>" view="x"></modewright-wheel><p id="after">after</p>`);
  await allStand(page);
  equal(await page.evaluate(() => window.broken), undefined);
  const inside = await page.evaluate(() => [...document.querySelectorAll("*")].flatMap((one) => [...(one.shadowRoot?.querySelectorAll("img, script, i, [onclick], [onload], [onerror]") ?? [])]).length);
  equal(inside, 0, "tags from the tune");
  expect((await page.locator("modewright-wheel .mistake").allInnerTexts()).join().includes("<b>"), "the mistake is not told");
  expect((await page.locator("modewright-lesson .heading").allInnerTexts()).join().includes("<img"), "the title is not shown as it is");
  expect(await page.locator("#after").isVisible(), "the page around");
});

check("elements: tune with raw angle brackets is told of", async (open) => {
  const page = await of(open, "<modewright-tune>X:1\nK:D\nA<b c>d|DEF|</modewright-tune>");
  await stands(page, "modewright-tune");
  expect((await page.locator("modewright-tune .mistake:not(:empty)").first().innerText()).includes("&lt;"), "not told");
});

check("elements: a tune too long for a staff is told of, and answered", async (open) => {
  const page = await of(open, `<modewright-tune>X:1\nL:1/8\nK:D\n${"DEFG ".repeat(5001)}|</modewright-tune>`);
  await stands(page, "modewright-tune");
  expect((await page.locator("modewright-tune .mistake:not(:empty)").first().innerText()).includes("20000 notes"), "not told");
  equal(await page.locator("modewright-tune svg [data-i]").count(), 0, "notes on a staff");
  expect((await page.locator("modewright-tune .verdict-line").innerText()).length > 10, "no verdict");
});

/** Notes what is asked of the browser's sound; of what is started, when, in the newest place for it. */
const listening = () => {
  window.contexts = [];
  window.started = [];
  const Old = window.AudioContext;
  window.AudioContext = class extends Old {
    constructor(...all) {
      super(...all);
      window.contexts.push(this);
      window.started = [];
    }
    createGain() {
      return (window.gain = super.createGain());
    }
    createBufferSource() {
      const source = super.createBufferSource();
      const start = source.start.bind(source);
      source.start = (when) => {
        window.started.push(when);
        start(when);
      };
      return source;
    }
  };
};

check("elements: taken away while loading, moved, and while sounding", async (open) => {
  const page = await of(open, `<modewright-tune>${TUNE}</modewright-tune><modewright-wheel home="E" mode="dorian"></modewright-wheel><div id="other"></div>`, { before: listening });
  // At once, while the program is on its way.
  await page.evaluate(() => {
    document.querySelector("modewright-tune").remove();
    const again = document.createElement("modewright-wheel");
    document.body.append(again);
    again.remove();
    again.setAttribute("home", "C");
  });
  await stands(page, "modewright-wheel");
  await page.locator("modewright-wheel").getByRole("button", { name: "darker" }).click();
  equal(await hub(page), "E minor");
  // Moved: it keeps what the reader did.
  await page.evaluate(() => document.querySelector("#other").append(document.querySelector("modewright-wheel")));
  equal(await hub(page), "E minor", "moved");
  await page.getByRole("button", { name: "Hear it" }).click();
  equal(await page.evaluate(() => window.contexts.length), 1);
  await page.evaluate(() => {
    window.kept = document.querySelector("modewright-wheel");
    window.kept.remove();
  });
  await eventually(page, () => page.evaluate(() => window.contexts[0].state), (state) => state === "closed", "the sound goes on");
  await page.evaluate(() => document.body.append(window.kept));
  await stands(page, "modewright-wheel");
  equal(await hub(page), "E Dorian", "put back");
});

check("elements: several changes in a row show the last", async (open) => {
  const page = await of(open, `<modewright-wheel home="E" mode="dorian"></modewright-wheel><modewright-tune rows="note">${TUNE}</modewright-tune>`);
  await page.evaluate(() => document.querySelector("modewright-wheel").setAttribute("home", "G"));
  await stands(page, "modewright-wheel");
  equal(await hub(page), "G Dorian", "changed while loading");
  await page.evaluate(() => {
    const wheel = document.querySelector("modewright-wheel");
    wheel.setAttribute("home", "C");
    wheel.setAttribute("mode", "lydian");
    wheel.setAttribute("home", "A");
    wheel.setAttribute("mode", "mixolydian");
  });
  equal(await hub(page), "A Mixolydian");
  await stands(page, "modewright-tune");
  await page.evaluate(() => {
    const tune = document.querySelector("modewright-tune");
    tune.textContent = "X:1\nL:1/8\nK:G\nGABc d2d2|edcB A4|GABc d2ef|g4 G4|";
    tune.setAttribute("show", "verdict");
    tune.setAttribute("show", "verdict,staff");
  });
  await eventually(page, () => page.locator("modewright-tune .verdict-line").innerText(), (said) => said.includes("G major"), "the new text");
  equal(await page.locator("modewright-tune .staff svg").count(), 1);
  equal(await page.locator("modewright-tune .range").count(), 0);
});

check("elements: fingerings come from a part that is loaded once, and only where it is asked for", async (open) => {
  const loads = (page) => page.evaluate(() => performance.getEntriesByType("resource").filter((one) => /engine[^/]*\.wasm$/.test(one.name)).length);
  const bare = await of(open, `<modewright-tune>${TUNE}</modewright-tune>`);
  await stands(bare, "modewright-tune");
  equal(await loads(bare), 0, "loaded for nothing");
  const played = `<modewright-tune instrument="tin-whistle-d">${TUNE}</modewright-tune>`;
  const page = await of(open, `${played}${played}<modewright-tune instrument="nose-flute">${TUNE}</modewright-tune>`);
  for (const nth of [0, 1]) {
    const legend = () => page.locator("modewright-tune").nth(nth).locator(".staff").innerHTML();
    await eventually(page, legend, (svg) => /fingering/.test(svg), "no fingering");
  }
  await eventually(page, () => page.locator("modewright-tune").nth(2).locator(".staff-place .mistake").allInnerTexts(), (said) => /^There is no instrument `nose-flute`/.test(said.join()), "an unknown instrument is not told");
  expect(await page.locator("modewright-tune").nth(2).locator(".staff svg").isVisible(), "its staff");
  equal(await loads(page), 1, "loads");
  await page.locator("modewright-tune .staff").first().focus();
  await page.keyboard.press("ArrowRight");
  await settled(page);
  equal(await page.locator("modewright-tune .staff .pointed").count() > 0, true, "notes of the new picture can be pointed at");
});

check("elements: notes can be marked or not", async (open) => {
  const page = await of(open, `<modewright-tune>${TUNE}</modewright-tune><modewright-tune marks="none">${TUNE}</modewright-tune><modewright-tune marks="lowest, home">${TUNE}</modewright-tune><modewright-tune marks="loudest">${TUNE}</modewright-tune><modewright-tune marks="none" instrument="tin-whistle-d">${TUNE}</modewright-tune>`);
  await allStand(page);
  const marks = (nth) => page.locator("modewright-tune").nth(nth).locator(".staff").evaluate((staff) => ["home", "lowest", "highest"].filter((word) => [...staff.querySelectorAll("text")].some((one) => one.textContent === word)).join());
  equal(await marks(0), "home,lowest,highest");
  equal(await marks(1), "");
  equal(await marks(2), "home,lowest");
  const said = await page.locator("modewright-tune").nth(3).locator(".mistake").allInnerTexts();
  expect(/`loudest` is not understood in the attribute marks.*home, lowest, highest or forms/i.test(said.join().replaceAll("\n", " ")), said.join());
  await eventually(page, () => page.locator("modewright-tune").nth(4).locator(".staff").innerHTML(), (svg) => /fingering/.test(svg), "no fingering");
  equal(await marks(4), "", "with an instrument");
  await page.evaluate(() => document.querySelectorAll("modewright-tune")[1].setAttribute("marks", "highest"));
  await eventually(page, () => marks(1), (found) => found === "highest", "changed");
});

check("elements: a tune sounds, and its notes are lit", async (open) => {
  const page = await of(open, `<modewright-tune>${TUNE}</modewright-tune><modewright-wheel home="E" mode="dorian"></modewright-wheel><modewright-tune sound="off">${TUNE}</modewright-tune><modewright-tune id="short" show="staff">X:1\nL:1/4\nQ:1/4=300\nK:D\nDF|</modewright-tune>`, { before: listening });
  await allStand(page);
  const tune = page.locator("modewright-tune").first();
  const play = tune.locator(".hear-button");
  const parts = () => page.evaluate(() => performance.getEntriesByType("resource").filter((one) => /lesson[^/]*\.wasm$/.test(one.name)).length);
  const state = (nth) => page.evaluate((nth) => window.contexts[nth]?.state, nth);
  equal(await page.locator("modewright-tune").nth(1).locator(".hear-button").count(), 0, "sound off");
  equal(`${await parts()} ${await page.evaluate(() => window.contexts.length)}`, "0 0", "before the reader asks");
  equal(await play.innerText(), "Play the tune");
  await play.click();
  const lit = () => tune.locator(".staff .lit").evaluateAll((all) => all.map((one) => one.dataset.i).join());
  await eventually(page, lit, (found) => found !== "", "no note is lit");
  const first = await lit();
  await eventually(page, lit, (found) => found !== "" && found !== first, "the light stays");
  expect(await page.evaluate(() => window.gain.gain.value > 0 && window.gain.gain.value <= 0.021), "loud at first");
  equal(await play.innerText(), "Stop");
  equal(await play.getAttribute("aria-pressed"), "true");
  await tune.locator(".loudness input").fill("0");
  equal(await page.evaluate(() => window.gain.gain.value), 0, "how loud");
  await page.keyboard.press("Escape");
  await eventually(page, () => state(0), (found) => found === "closed", "Escape");
  await eventually(page, lit, (found) => found === "", "still lit");
  equal(await play.innerText(), "Play the tune");
  // The wheel and another tune each end what sounds.
  await page.locator("modewright-wheel .hear-button").click();
  await eventually(page, () => state(1), (found) => found === "running", "the wheel");
  await play.click();
  equal(await state(1), "closed");
  equal(await page.locator("modewright-wheel .hear-button").innerText(), "Hear it");
  await eventually(page, lit, (found) => found !== "", "again");
  // Another text is another tune.
  await page.evaluate(() => (document.querySelector("modewright-tune").textContent = "X:1\nK:G\nGABc|"));
  await eventually(page, () => state(2), (found) => found === "closed", "another text");
  await play.click();
  await eventually(page, () => state(3), (found) => found === "running", "the other text");
  await page.evaluate(() => document.querySelector("modewright-tune").remove());
  await eventually(page, () => state(3), (found) => found === "closed", "taken away");
  // It ends by itself.
  const short = page.locator("#short .hear-button");
  await short.click();
  await eventually(page, () => short.innerText(), (found) => found === "Stop", "the short one");
  await eventually(page, () => short.innerText(), (found) => found === "Play the tune", "its end");
  equal(await parts(), 1, "loaded more than once");
});

check("elements: a tune sounds slower from the same note, and after a count-in", async (open) => {
  const four = "X:1\nT:Four steps\nM:4/4\nL:1/4\nQ:1/4=120\nK:C\nCDEF|GABc|cBAG|FEDC|]\n";
  const page = await of(open, `<modewright-tune>${four}</modewright-tune><modewright-tune speed="75" count-in="1">${four}</modewright-tune><modewright-tune speed="ten">${four}</modewright-tune>`, { before: listening });
  await allStand(page);
  const tune = (nth) => page.locator("modewright-tune").nth(nth);
  const speed = (nth) => tune(nth).getByLabel("Speed");
  const play = (nth) => tune(nth).locator(".hear-button").click();
  // From the first sound that was scheduled last on, in hundredths of a second.
  const steps = () => page.evaluate(() => window.started.slice(0, 3).map((when) => Math.round((when - window.started[0]) * 100)).join());
  const lit = (nth) => tune(nth).locator(".staff .lit").evaluateAll((all) => all.map((one) => Number(one.dataset.i))[0] ?? -1);
  equal(`${await speed(0).inputValue()} ${await speed(1).inputValue()} ${await speed(2).inputValue()}`, "100 75 100");
  expect((await tune(2).locator(".element .mistake").innerText()).includes("a whole number from 40 to 200"), "a speed that is none");
  await play(0);
  await eventually(page, steps, (found) => found === "0,50,100", "as it is written");
  await eventually(page, () => lit(0), (found) => found >= 2, "on its way");
  // By keys: two choices slower, from the note that is heard.
  await speed(0).focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  equal(await speed(0).inputValue(), "80");
  await eventually(page, steps, (found) => found === "0,63,125", "slower");
  const on = await lit(0);
  expect(on !== 0 && on !== 1, `it began again, at note ${on}`);
  equal(await tune(0).locator(".hear-button").innerText(), "Stop");
  equal(await page.evaluate(() => window.contexts.filter((one) => one.state === "running").length), 1, "places for sound");
  // Four clicks first, a beat apart, and no note is lit by them.
  await play(1);
  await eventually(page, steps, (found) => found === "0,67,133", "the count-in");
  await settled(page);
  equal(await lit(1), -1, "lit while it is counted in");
  await eventually(page, () => lit(1), (found) => found === 0, "the first note", 10_000);
  await page.keyboard.press("Escape");
  equal(await page.evaluate(() => window.contexts.filter((one) => one.state !== "closed").length), 0, "places for sound");
  // What the page's author sets later holds until the reader chooses.
  await page.evaluate(() => document.querySelectorAll("modewright-tune")[1].setAttribute("speed", "50"));
  await eventually(page, () => speed(1).inputValue(), (found) => found === "50", "another attribute");
});

check("elements: a part that does not come is told, and the rest goes on", async (open) => {
  const page = await of(open, `<modewright-lesson>${TUNE}</modewright-lesson>`, { without: /modewright-lesson-/, forgives: /404|MIME|dynamically imported/ });
  await stands(page, "modewright-lesson");
  expect((await page.locator("modewright-lesson .verdict-line").innerText()).includes("E Dorian"), "no verdict");
  expect((await page.locator("modewright-lesson .mistake").allInnerTexts()).join().includes("could not be loaded"), "the walk");
  await page.getByRole("button", { name: "Play the tune" }).click();
  await eventually(page, () => page.locator(".staff-place .silent").innerText(), (said) => said.includes("could not be loaded"), "the sound");
  equal(await page.locator(".staff-place .hear-button").innerText(), "Play the tune");
});

/** A page of another address, and the elements' own, each with its headers. */
async function another(serves) {
  const server = createServer(async (request, response) => {
    const { html, headers } = serves(request.url);
    try {
      const body = html ?? (await readFile(path.join(dist, "elements", path.basename(request.url))));
      const kind = html ? "text/html; charset=utf-8" : { ".js": "text/javascript", ".css": "text/css", ".wasm": "application/wasm", ".svg": "image/svg+xml" }[path.extname(request.url)];
      response.writeHead(200, { "Content-Type": kind, ...headers }).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  return server;
}

// The recipe as it stands in the README: who copies it gets what is checked here.
const readme = await readFile(path.join(root, "web/elements/README.md"), "utf8");
const [recipe] = /<iframe src[^]*?<\/iframe>/.exec(readme);

check("elements: in a frame on a page that allows no scripts", async (_, { browser }) => {
  const framed = (at) => recipe.replace(/src="[^"]*"/, `src="${at}"`).replace(' loading="lazy"', "");
  let at;
  let ancestor;
  const open = ["elements.js", ".wasm", ".js"];
  const lessons = await another((url) => url === "/ebb.html"
    ? { html: plain(`<modewright-tune>${TUNE}</modewright-tune>`), headers: { "Content-Security-Policy": `${STRICT["Content-Security-Policy"]}; frame-ancestors ${ancestor}` } }
    : { headers: open.some((end) => url.endsWith(end)) ? { "Access-Control-Allow-Origin": "*" } : {} });
  const host = await another(() => ({
    html: `<!doctype html><html lang="en"><title>A lesson</title><body>${framed(at)}</body></html>`,
    headers: { "Content-Security-Policy": `default-src 'none'; frame-src ${new URL(at).origin}` },
  }));
  const address = (server) => `http://127.0.0.1:${server.address().port}`;
  at = `${address(lessons)}/ebb.html`;
  ancestor = address(host);
  try {
    const heights = [];
    for (const width of [360, 820]) {
      const context = await browser.newContext({ viewport: { width, height: 900 } });
      const page = await context.newPage();
      await page.goto(address(host));
      const frame = page.frames()[1];
      await frame.waitForSelector("modewright-tune .staff svg");
      const found = await frame.evaluate(() => ({
        origin: self.origin, over: document.documentElement.scrollHeight - innerHeight, high: document.documentElement.scrollHeight,
        held: document.querySelector("modewright-tune").shadowRoot.querySelector(".frame").classList.contains("held"),
      }));
      equal(found.origin, "null", "the frame's own origin");
      expect(found.over <= 0, `at ${width} the frame scrolls: ${JSON.stringify(found)}`);
      await frame.locator(".hear-button").click();
      await frame.waitForSelector(".staff .lit");
      heights.push(`${width}: ${await frame.evaluate(() => document.body.scrollHeight)}`);
      await context.close();
    }
    // Somebody else may not frame it.
    ancestor = "https://lessons.example";
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.goto(address(host));
    await page.waitForTimeout(300);
    equal(await page.frames()[1].locator("modewright-tune").count(), 0, "framed by others");
    await context.close();
    return `heights ${heights.join(", ")}`;
  } finally {
    host.close();
    lessons.close();
    host.closeAllConnections();
    lessons.closeAllConnections();
  }
});

check("elements: without scripts the page reads", async (open) => {
  const page = await open({ at: "elements/example.html", javaScriptEnabled: false, until: "h1" });
  const tune = page.locator("modewright-tune").first();
  expect((await tune.innerText()).includes("|:D|EGB BAB|c2B AFD|"), "the tune");
  expect(await tune.isVisible(), "is hidden");
  const box = await tune.boundingBox();
  expect(box.height > 150, "its lines run together");
});

check("elements: a program that cannot be loaded is told in place", async (open) => {
  const page = await of(open, `<modewright-tune>${TUNE}</modewright-tune><p id="after">after</p>`, {
    without: /\.wasm$/,
    forgives: /404|wasm|MIME/,
  });
  await eventually(page, () => page.locator("modewright-tune .mistake").first().innerText(), (said) => said.includes("could not be shown"), "no message");
  expect(await page.getByText("EGB BAB").isVisible(), "the tune does not stand as text");
  expect(await page.locator("#after").isVisible(), "the page around");
});

check("elements: the wheel by keyboard", async (open) => {
  const page = await of(open, '<a href="#x">before</a><modewright-wheel home="D" mode="dorian"></modewright-wheel>');
  await stands(page, "modewright-wheel");
  await page.locator("a").focus();
  const seen = [];
  for (let i = 0; i < 5; i += 1) {
    await page.keyboard.press("Tab");
    seen.push(await page.evaluate(() => document.activeElement.shadowRoot?.activeElement?.getAttribute("class") ?? document.activeElement.shadowRoot?.activeElement?.textContent));
  }
  expect(seen.includes("ring") && seen.includes("hand"), `tab order: ${seen}`);
  await page.locator("modewright-wheel .ring").focus();
  await page.keyboard.press("ArrowUp");
  equal(await hub(page), "D Mixolydian");
  await page.keyboard.press("End");
  equal(await hub(page), "D Lydian");
  await page.locator("modewright-wheel .hand").focus();
  await page.keyboard.press("ArrowRight");
  equal(await hub(page), "A major");
  expect((await page.locator("modewright-wheel .hand").getAttribute("aria-valuetext")).includes("A major"), "spoken");
  await page.getByRole("button", { name: "Back to D Dorian" }).click();
  equal(await hub(page), "D Dorian");
});

check("elements: events bubble out with their details", async (open) => {
  const before = () => {
    window.told = [];
    for (const name of ["modewright-home", "modewright-note", "modewright-verdict"]) {
      document.addEventListener(name, (event) => window.told.push({ name, from: event.target.localName, detail: event.detail, bubbles: event.bubbles, composed: event.composed }));
    }
  };
  const page = await of(open, `<modewright-wheel home="E" mode="dorian"></modewright-wheel><modewright-tune>${TUNE}</modewright-tune><modewright-ask></modewright-ask>`, { before });
  await allStand(page);
  const told = async (name) => {
    await settled(page);
    return page.evaluate((name) => window.told.filter((one) => one.name === name).at(-1) ?? null, name);
  };
  const verdict = await told("modewright-verdict");
  equal(JSON.stringify(Object.keys(verdict.detail).sort()), '["chance","home","mode","sure","verdict","words"]');
  equal(`${verdict.from} ${verdict.detail.home} ${verdict.detail.mode} ${verdict.detail.verdict}`, "modewright-tune E dorian clear");
  expect(verdict.detail.chance > 0.5 && verdict.detail.chance <= 1, `chance ${verdict.detail.chance}`);
  await page.locator("modewright-wheel").getByRole("button", { name: "darker" }).click();
  const home = await told("modewright-home");
  equal(JSON.stringify([home.detail.home, home.detail.mode, home.detail.signature, home.detail.notes.join(" ")]), '["E","aeolian",1,"E F# G A B C D"]');
  expect(home.bubbles && home.composed && home.detail.words.startsWith("E minor is the notes of G major"), JSON.stringify(home));
  await page.locator("modewright-tune .staff").focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  const note = await told("modewright-note");
  equal(JSON.stringify([note.detail.index, note.detail.bar, note.detail.pitch]), '[1,1,"E4"]');
  equal(await page.locator("modewright-tune .pointed-said").innerText(), note.detail.words);
  await page.keyboard.press("Escape");
  equal((await told("modewright-note")).detail.index, null);
  const mark = page.locator('modewright-tune .staff g[data-i="2"]').first();
  const box = await mark.boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  equal((await told("modewright-note")).detail.pitch, "G4", "by mouse, within the shadow root");
  await page.locator("modewright-ask textarea").fill("D E F G A B c d c B A G F E D");
  await eventually(page, () => told("modewright-verdict"), (one) => one.from === "modewright-ask" && one.detail.home === "D", "the box");
});

check("elements: each takes the fonts and colours that the page gives it", async (open) => {
  const page = await open({ at: "elements/example.html", until: "modewright-wheel .hub", colorScheme: "dark" });
  await allStand(page);
  const looks = await page.evaluate(() => [...document.querySelectorAll("modewright-wheel")].map((one) => {
    const root = one.shadowRoot;
    return {
      font: getComputedStyle(root.querySelector("button")).fontFamily,
      hub: getComputedStyle(root.querySelector(".hub circle")).fill,
      ground: getComputedStyle(root.querySelector(".frame")).backgroundColor,
    };
  }));
  expect(looks[0].font.includes("Georgia") && looks[1].font.includes("Courier"), JSON.stringify(looks));
  expect(looks[0].hub !== looks[1].hub && looks[1].hub === "rgb(10, 92, 54)", JSON.stringify(looks));
  equal(looks[1].ground, "rgb(251, 250, 244)", "ground");
});

check("elements: fit a narrow place", async (open) => {
  for (const body of [
    '<modewright-wheel home="E" mode="dorian"></modewright-wheel>',
    `<modewright-tune rows="note,degree,solfa,count">${TUNE}</modewright-tune>`,
    "<modewright-ask></modewright-ask>",
    `<modewright-lesson>${TUNE}</modewright-lesson>`,
    `<div class="row"><p>Beside</p><modewright-tune>${TUNE}</modewright-tune></div>`,
  ]) {
    const page = await of(open, body, { viewport: { width: 320, height: 640 } });
    await allStand(page);
    const over = await page.evaluate(() => {
      const wide = [];
      for (const one of document.querySelectorAll("modewright-wheel,modewright-tune,modewright-ask,modewright-lesson")) {
        for (const part of one.shadowRoot.querySelectorAll(".element *:not(svg *)")) {
          if (part.getBoundingClientRect().right > innerWidth + 1) wide.push(`${part.localName}.${part.getAttribute("class")}`);
        }
      }
      return `${wide.slice(0, 5)}${document.documentElement.scrollWidth > innerWidth ? " scrolls" : ""}`;
    });
    equal(over, "", body.slice(0, 40));
    const low = await page.evaluate(() => [...document.querySelectorAll("*")].flatMap((one) => [...(one.shadowRoot?.querySelectorAll("button, select") ?? [])])
      .map((one) => one.getBoundingClientRect()).filter((box) => box.height > 0 && box.height < 43.9).length);
    equal(low, 0, "buttons lower than a finger");
  }
});

check("elements: print whole, without what is only for hands", async (open) => {
  const page = await open({ at: "elements/example.html", until: "modewright-wheel .hub" });
  await page.waitForFunction(() => [...document.querySelectorAll("modewright-lesson, modewright-tune")].every((one) => !one.shadowRoot.querySelector(".loading")));
  await page.emulateMedia({ media: "print" });
  await settled(page);
  for (const part of ["modewright-tune .staff svg", "modewright-tune .verdict-line", "modewright-wheel .wheel-drawing >> nth=0", "modewright-lesson .walk"]) {
    expect(await page.locator(part).first().isVisible(), `${part} is not printed`);
  }
  for (const part of ["modewright-wheel .steppers", "modewright-wheel .hear", "modewright-wheel .layout-choice"]) {
    expect(!(await page.locator(part).first().isVisible()), `${part} is printed`);
  }
  const cut = await page.evaluate(() => [...document.querySelectorAll("*")].filter((one) => {
    const frame = one.shadowRoot?.querySelector(".frame");
    return frame && frame.scrollHeight > frame.clientHeight + 1;
  }).length);
  equal(cut, 0, "elements cut off");
  await page.setViewportSize({ width: 800, height: 1100 });
  await page.waitForTimeout(500);
  await page.screenshot({ path: path.join(pictures, "elements-print.png"), fullPage: true });
});
