// Looks: accessibility in every state, room at every width, motion, print, pictures to look at.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { check, equal, expect, pictures, settled } from "./harness.mjs";
import { choose } from "./instrument.mjs";

const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const BROKEN = "X:1\nT:A slip of the pen\nL:1/8\nM:6/8\nK:EDor\nEGB @BAB|c2B ^x AFD|EGB BAG F|\n(3ABc \"open E3|\n";
const BOOK = Array.from({ length: 40 }, (_, i) => `X:${i + 1}\nT:Tide ${i + 1}\nL:1/8\nK:G\nGAB d2B|dBA G3|\n`).join("\n");

const STATES = {
  verdict: async () => {},
  empty: (page) => page.getByRole("button", { name: "Clear" }).click(),
  problems: (page) => page.locator(".field textarea").fill(BROKEN),
  turned: async (page) => {
    await page.getByRole("button", { name: "darker" }).click();
    await page.getByRole("button", { name: "darker" }).click();
    await page.getByRole("button", { name: "by pitch" }).click();
  },
  open: (page) => page.getByLabel("Tunes to try").selectOption("five-oars"),
  foreign: (page) => page.getByLabel("Tunes to try").selectOption("two-lights-at-the-bar"),
  reason: async (page) => {
    await page.locator(".reasons button").first().click();
    await page.locator(".homes button").nth(3).click();
  },
  list: async (page) => {
    await page.setInputFiles("input[type=file]", { name: "winter.abc", mimeType: "text/plain", buffer: Buffer.from(BOOK) });
    await page.locator(".tune-list").waitFor();
  },
  instrument: (page) => choose(page, "anglo-20-c-g"),
  whistle: (page) => choose(page, "tin-whistle-d"),
  lesson: async (page) => {
    await page.locator("#lesson").scrollIntoViewIfNeeded();
    await page.locator(".paper .sheets svg").first().waitFor();
  },
  words: async (page) => {
    await STATES.lesson(page);
    const passage = (label) => page.getByLabel(label, { exact: true });
    await passage("Bar 1").fill("Here the boat turns.\n\nBreathe before the long note, which is held for three quavers while the oars drip.");
    await passage("Bar 2").fill("Another word.");
    const field = page.locator(".field textarea");
    const abc = await field.inputValue();
    await field.fill(`${abc.replace("C:invented for Modewright\n", "C:Aud Weir (invented, now living)\n").replace("EGB BAB|", "EGB BAd|")}`);
    await page.locator(".old-said").first().waitFor();
    await page.getByRole("button", { name: "Make a link" }).click();
    await page.locator(".to-copy textarea").waitFor();
  },
  letters: async (page) => {
    await page.locator(".field textarea").fill("D E F# G A B c# d");
    await page.locator(".given").getByLabel("Metre").waitFor();
  },
  refused: async (page) => {
    await page.setInputFiles("input[type=file]", { name: "tune.png", mimeType: "image/png", buffer: Buffer.from("\x89PNG\r\n\x1a\n", "latin1") });
    await page.locator(".refused:not(:empty)").waitFor();
  },
};

for (const colorScheme of ["light", "dark"]) {
  for (const [state, into] of Object.entries(STATES)) {
    check(`accessible: ${state}, ${colorScheme}`, async (open) => {
      const page = await open({ colorScheme, viewport: { width: 1440, height: 900 }, reducedMotion: "reduce" });
      await into(page);
      await settled(page);
      await page.mouse.move(0, 0);
      // A script element would break the page's own policy; a value of the debugger does not.
      await page.evaluate(axe);
      const found = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
      const said = found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 4).join(", ")}`);
      equal(said.join("; "), "", "");
    });
  }
}

for (const colorScheme of ["light", "dark"]) {
  for (const [name, viewport] of [["wide", { width: 1440, height: 900 }], ["phone", { width: 360, height: 740 }]]) {
    check(`pictures: ${name}, ${colorScheme}`, async (open) => {
      for (const [state, into] of Object.entries(STATES)) {
        const page = await open({ colorScheme, viewport, reducedMotion: "reduce" });
        await into(page);
        await settled(page);
        await page.mouse.move(0, 0);
        await page.waitForTimeout(100);
        await page.screenshot({ path: path.join(pictures, `${name}-${colorScheme}-${state}.png`), fullPage: true });
        await page.context().close();
      }
    });
  }
}

check("no sideways scrolling from 320 to 1920 pixels, nor with text twice as large", async (open) => {
  for (const state of ["instrument", "verdict", "problems", "list", "letters", "words"]) {
    for (const zoom of [1, 2]) {
      for (const width of zoom === 1 ? [320, 414, 768, 1280, 1920] : [320, 768]) {
        const page = await open({ viewport: { width, height: 800 } });
        await STATES[state](page);
        await settled(page);
        await page.evaluate((zoom) => { document.documentElement.style.fontSize = `${100 * zoom}%`; }, zoom);
        const over = await page.evaluate(() => {
          if (document.documentElement.scrollWidth <= innerWidth) return "";
          const wide = [...document.querySelectorAll("#page *")].filter((one) => one.getBoundingClientRect().right > innerWidth + 1);
          return wide.slice(0, 6).map((one) => `${one.tagName}.${one.getAttribute("class")}`).join(" ") || "something";
        });
        equal(over, "", `${state} at ${width} pixels, text ${zoom}x, too wide:`);
        if (zoom === 2 && width === 320) await page.screenshot({ path: path.join(pictures, `zoom-${state}.png`), fullPage: true });
        await page.context().close();
      }
    }
  }
});

check("what is touched in the lesson is at least 44 pixels high", async (open) => {
  const page = await open({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
  await STATES.words(page);
  const small = await page.evaluate(() => {
    const all = [...document.querySelectorAll(".lesson-place button, .lesson-place select, .lesson-place textarea, .lesson-place label:has(input), nav a")];
    const boxes = all.map((one) => [one.textContent.slice(0, 20), one.getBoundingClientRect()]);
    return boxes.filter(([, box]) => box.height < 44 || box.width < 44).map(([name, box]) => `${name} ${Math.round(box.width)}x${Math.round(box.height)}`);
  });
  equal(small.join("; "), "");
});

check("the verdict stays in view on a phone with the keyboard up", async (open) => {
  // The keyboard leaves about this much.
  const page = await open({ viewport: { width: 360, height: 380 }, hasTouch: true, isMobile: true });
  const field = page.locator(".field textarea");
  await field.fill(`${"DEF GAB|def gab|\n".repeat(40)}`);
  await field.tap();
  await page.keyboard.press("Control+End");
  await page.keyboard.type("D");
  const seen = async () => {
    const box = await page.locator(".verdict").boundingBox();
    return box.y >= -1 && box.y + box.height <= 381;
  };
  expect(await seen(), "while typing at the end of a long tune");
  await page.screenshot({ path: path.join(pictures, "keyboard-up.png") });
  for (const top of [0, 200, 2000, 100000]) {
    await page.evaluate((top) => scrollTo(0, top), top);
    await page.waitForTimeout(50);
    expect(await seen(), `scrolled to ${top}`);
  }
});

check("reduced motion is still", async (open) => {
  const moving = (page) => page.evaluate(() =>
    [...document.querySelectorAll("#page *")].filter((one) => getComputedStyle(one).transitionDuration.split(", ").some((time) => time !== "0s")).length);
  expect(await moving(await open()) > 0, "nothing moves at all");
  equal(await moving(await open({ reducedMotion: "reduce" })), 0);
});

check("print shows what is on the screen", async (open) => {
  const page = await open();
  await page.emulateMedia({ media: "print" });
  for (const part of [".verdict-line", ".wheel-drawing", ".range-picture", ".told", ".field textarea"]) {
    expect(await page.locator(part).first().isVisible(), `${part} is not printed`);
  }
  for (const part of [".tools", ".steppers"]) {
    const seen = await page.locator(part).evaluateAll((all) => all.filter((one) => one.checkVisibility()).length);
    equal(seen, 0, `${part} is printed`);
  }
  await page.setViewportSize({ width: 800, height: 1100 });
  await page.screenshot({ path: path.join(pictures, "print.png"), fullPage: true });
});
