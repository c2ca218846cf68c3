// The wheel by mouse, touch and keys, in both orders of notes.

import { check, equal, expect, settled } from "./harness.mjs";

/** What the middle of the wheel says when the page has drawn it. */
const hub = async (page) => {
  await settled(page);
  return `${await page.locator(".hub-home").textContent()} ${await page.locator(".hub-mode").textContent()}`;
};

/** The point on the screen at an angle (clockwise from the top) and a distance in drawing units. */
async function at(page, degrees, radius) {
  const box = await page.locator(".wheel-drawing").boundingBox();
  const unit = box.width / 464;
  const angle = (degrees * Math.PI) / 180;
  return {
    x: box.x + box.width / 2 + Math.sin(angle) * radius * unit,
    y: box.y + box.height / 2 - Math.cos(angle) * radius * unit,
  };
}

async function drag(page, radius, from, to) {
  const start = await at(page, from, radius);
  await page.mouse.move(start.x, start.y);
  await page.mouse.down();
  const steps = Math.max(1, Math.ceil(Math.abs(to - from) / 6));
  for (let i = 1; i <= steps; i += 1) {
    const point = await at(page, from + ((to - from) * i) / steps, radius);
    await page.mouse.move(point.x, point.y);
  }
  await page.mouse.up();
}

const ready = async (page) => {
  await page.locator(".wheel-drawing").scrollIntoViewIfNeeded();
  await page.waitForTimeout(800);
};

// E stands at 120 degrees in both orders.
check("wheel by mouse, by fifths", async (open) => {
  const page = await open({ viewport: { width: 1440, height: 1000 } });
  await ready(page);
  await drag(page, 187, 120, 92);
  equal(await hub(page), "A Mixolydian", "home marker");
  await page.getByRole("button", { name: "Back to the tune's own key" }).click();
  equal(await hub(page), "E Dorian", "back");
  await drag(page, 141, 60, 31);
  equal(await hub(page), "E minor", "ring, one step darker");
  expect((await page.locator(".changed-said").innerText()).includes("C for C♯"), "what changed is not told");
  equal(await page.locator(".place.changed").count(), 1, "changed notes");
  await drag(page, 141, 60, 121);
  equal(await hub(page), "E Mixolydian", "ring, two steps brighter");
  const touched = await at(page, 90, 141);
  await page.mouse.click(touched.x, touched.y);
  equal(await hub(page), "A major", "a touch makes A home");
});

check("wheel by mouse, by pitch", async (open) => {
  const page = await open({ viewport: { width: 1440, height: 1000 } });
  await page.getByRole("button", { name: "by pitch" }).click();
  await ready(page);
  await drag(page, 187, 120, 183);
  equal(await hub(page), "F♯ Phrygian", "home marker");
  await page.getByRole("button", { name: "Back to the tune's own key" }).click();
  await drag(page, 141, 210, 179);
  equal(await hub(page), "E minor", "ring");
});

for (const order of ["by fifths", "by pitch"]) {
  check(`wheel by keys, ${order}`, async (open) => {
    const page = await open();
    await page.getByRole("button", { name: order }).click();
    const home = page.getByRole("slider", { name: "Same notes, another home" });
    const ring = page.getByRole("slider", { name: "Same home, other notes" });
    await home.focus();
    await page.keyboard.press("ArrowRight");
    equal(await hub(page), order === "by fifths" ? "B minor" : "F♯ Phrygian");
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("Home");
    equal(await hub(page), "D major");
    equal(await home.getAttribute("aria-valuenow"), "1");
    await ring.focus();
    await page.keyboard.press("Home");
    equal(await hub(page), "D Locrian");
    const seen = [await hub(page)];
    for (let i = 0; i < 6; i += 1) {
      await page.keyboard.press("ArrowUp");
      seen.push(await hub(page));
    }
    equal(seen.join(), "D Locrian,D Phrygian,D minor,D Dorian,D Mixolydian,D major,D Lydian");
    await page.keyboard.press("ArrowUp");
    equal(await hub(page), "D Lydian", "stops");
    expect((await ring.getAttribute("aria-valuetext")).startsWith("D Lydian is the notes of A major"), "spoken");
    // Tab order reaches both handles, and focus is seen.
    const shown = await ring.evaluate((ring) => getComputedStyle(ring.querySelector(".focus-ring")).stroke);
    expect(shown !== "none", "focus of the ring is not seen");
  });
}

check("wheel by touch turns, and a swipe over it scrolls the page", async (open) => {
  const page = await open({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
  await page.locator(".wheel-drawing").evaluate((wheel) => wheel.scrollIntoView({ block: "center" }));
  await page.waitForTimeout(800);
  const client = await page.context().newCDPSession(page);
  const touch = (type, points) => client.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  const swipe = async (points) => {
    await touch("touchStart", [points[0]]);
    for (const point of points.slice(1)) {
      await touch("touchMove", [point]);
      await page.waitForTimeout(16);
    }
    await touch("touchEnd", []);
    await page.waitForTimeout(150);
  };
  const arc = async (radius, from, to) =>
    Promise.all(Array.from({ length: 16 }, (_, i) => at(page, from + ((to - from) * i) / 15, radius)));
  const scrolled = () => page.evaluate(() => scrollY);

  const before = await scrolled();
  await swipe(await arc(187, 120, 92));
  equal(await hub(page), "A Mixolydian", "home marker");
  equal(await scrolled(), before, "the page moved under the home marker");
  // Along the top of the ring a finger moves sideways: that is a turn.
  await swipe(await arc(141, -15, 18));
  equal(await hub(page), "A major", "ring");
  equal(await scrolled(), before, "the page moved under the ring");
  // Up and down on the ring is the page's own; at 90 degrees stands home, and the marker is not.
  const start = await at(page, 60, 141);
  await swipe(Array.from({ length: 16 }, (_, i) => ({ x: start.x, y: start.y - i * 12 })));
  expect((await scrolled()) > before + 60, `a swipe on the ring does not scroll: ${await scrolled()} ${before}`);
  equal(await hub(page), "A major", "the swipe turned the wheel");
});

check("wheel by its buttons, and all fifteen signatures", async (open) => {
  const page = await open();
  await page.getByRole("button", { name: "darker" }).click();
  equal(await hub(page), "E minor");
  await page.getByRole("button", { name: "brighter" }).click();
  equal(await hub(page), "E Dorian");
  const choice = page.getByLabel("Same mode, another signature");
  const options = await choice.locator("option").evaluateAll((all) => all.map((one) => one.value));
  equal(options.length, 15);
  const homes = [];
  for (const value of options) {
    await choice.selectOption(value);
    await settled(page);
    homes.push(await page.locator(".hub-home").textContent());
    const names = await page.locator(".place:not(.outside)").evaluateAll((all) => all.map((one) => one.dataset.note));
    const letters = new Set(names.map((name) => name[0]));
    equal(letters.size, 7, `${value}: ${names}`);
    const signs = names.join("").replaceAll(/[A-G]/g, "");
    equal(signs.length, Math.abs(Number(value)), `${value}: ${names}`);
  }
  // Dorian on the line of fifths, from seven flats to seven sharps.
  equal(homes.join(" "), "D♭ A♭ E♭ B♭ F C G D A E B F♯ C♯ G♯ D♯");
});

check("open degrees and second forms have their places", async (open) => {
  const page = await open();
  const choice = page.getByLabel("Tunes to try");
  await choice.selectOption("two-lights-at-the-bar");
  await settled(page);
  equal(await page.locator(".place.foreign").evaluateAll((all) => all.map((one) => one.dataset.note).join()), "D#");
  await choice.selectOption("five-oars");
  await settled(page);
  expect(await page.locator(".place.open:not(.outside)").count() > 0, "no open degree inside");
  expect(await page.locator(".place.open.outside .dashes").count() > 0, "no other form outside");
});

check("sound: none before a gesture, quiet at first, told where there is none", async (open) => {
  const before = () => {
    window.contexts = 0;
    window.gains = [];
    const Old = window.AudioContext;
    window.AudioContext = class extends Old {
      constructor(...all) {
        super(...all);
        window.contexts += 1;
      }
      createGain() {
        const gain = super.createGain();
        window.gains.push(gain);
        return gain;
      }
    };
  };
  const page = await open({ before });
  await page.getByRole("button", { name: "darker" }).click();
  equal(await page.evaluate(() => window.contexts), 0, "contexts before the reader asks");
  await page.getByRole("button", { name: "Hear it" }).click();
  equal(await page.evaluate(() => window.contexts), 1);
  const loud = await page.evaluate(() => window.gains[0].gain.value);
  expect(loud > 0 && loud <= 0.05, `starts at ${loud}`);
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByRole("button", { name: "Hear it" }).waitFor();

  const silent = await open({ before: () => { window.AudioContext = class { constructor() { throw new Error("no device"); } }; } });
  await silent.getByRole("button", { name: "Hear it" }).click();
  await silent.getByText("This browser gives no sound here.").waitFor();
});
