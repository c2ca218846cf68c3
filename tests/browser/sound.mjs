// The tune that can be heard: what is scheduled when, which note is lit, how it begins and ends.

import { check, equal, eventually, expect, settled } from "./harness.mjs";

/** Notes what is started on the audio clock, and how loud it all is. */
const LISTEN = () => {
  window.heard = [];
  window.gains = [];
  const Old = window.AudioContext;
  window.AudioContext = class extends Old {
    constructor(...all) {
      super(...all);
      window.clock = this;
    }
    createGain() {
      const gain = super.createGain();
      window.gains.push(gain);
      return gain;
    }
    createBufferSource() {
      const source = super.createBufferSource();
      const start = source.start.bind(source);
      source.start = (when) => {
        window.heard.push({ when, samples: source.buffer.length });
        start(when);
      };
      return source;
    }
  };
};

const TUNE = "X:1\nT:Four steps\nM:4/4\nL:1/4\nQ:1/4=120\nK:C\nCDEF|G2 E2|DCDE|C4|]\n";
const play = (page) => page.getByRole("button", { name: "Play the tune" });
const heard = (page) => page.evaluate(() => window.heard.map((one) => one.when));

async function open_tune(open) {
  const page = await open({ before: LISTEN });
  await page.locator(".field textarea").fill(TUNE);
  await page.locator(".staff svg").waitFor();
  await settled(page);
  return page;
}

/** From the first sound on, to hundredths. */
const steps = (times) => times.map((time) => Math.round((time - times[0]) * 100) / 100);

check("the tune is scheduled on the audio clock, after a bar of count-in, quietly", async (open) => {
  const page = await open_tune(open);
  equal(await page.evaluate(() => window.clock === undefined), true, "sound before a gesture");
  await play(page).click();
  await eventually(page, () => heard(page), (times) => times.length >= 7, "too little is scheduled");
  const times = steps(await heard(page));
  equal(times.slice(0, 7).join(), "0,0.5,1,1.5,2,2.5,3", "clicks and notes at 120 a minute");
  const loud = await page.evaluate(() => window.gains[0].gain.value);
  expect(loud > 0 && loud <= 0.05, `starts at ${loud}`);
  await page.keyboard.press("Escape");
  await play(page).waitFor();
  equal(await page.evaluate(() => window.clock.state), "closed", "after Escape");
});

check("each note is lit while it sounds", async (open) => {
  const page = await open_tune(open);
  await page.locator(".playing summary").click();
  await page.getByLabel("Bars counted in").selectOption("0");
  await play(page).click();
  // What the page lights, with the audio clock at that moment.
  const seen = await page.evaluate(() => new Promise((done) => {
    const seen = [];
    const end = performance.now() + 3_200;
    const look = () => {
      const lit = document.querySelector(".staff g.note.lit, .staff g.lit[data-i]")?.dataset.i;
      if (lit !== undefined && seen.at(-1)?.note !== Number(lit)) {
        seen.push({ note: Number(lit), at: window.clock.currentTime - window.heard[0].when });
      }
      if (performance.now() < end) setTimeout(look, 10);
      else done(seen);
    };
    look();
  }));
  const starts = [0, 0.5, 1, 1.5, 2, 3];
  expect(seen.length >= 5, JSON.stringify(seen));
  for (const { note, at } of seen.slice(0, 6)) {
    const late = at - starts[note];
    expect(late > -0.06 && late < 0.4, `note ${note} lit ${late.toFixed(2)} s after it sounded`);
  }
  await page.getByRole("button", { name: "Stop" }).first().click();
  await settled(page);
  equal(await page.locator(".staff g.lit").count(), 0, "lit after the end");
  return `${seen.length} notes, the latest ${Math.max(...seen.slice(0, 6).map(({ note, at }) => at - starts[note])).toFixed(2)} s late`;
});

check("slower, some bars, again and again, with clicks and a drone", async (open) => {
  const page = await open_tune(open);
  await page.locator(".playing summary").click();
  await page.getByLabel("Bars counted in").selectOption("0");
  await page.getByLabel("From bar").fill("2");
  await page.getByLabel("to bar").fill("2");
  await page.getByLabel("again and again").check();
  await page.getByLabel(/^Speed/).fill("200");
  await settled(page);
  await play(page).click();
  // A bar of two minims at 240 crotchets a minute: every half second, for ever.
  await eventually(page, () => heard(page), (times) => times.length >= 5, "it does not go round");
  equal(steps(await heard(page)).slice(0, 5).join(), "0,0.5,1,1.5,2");
  // A change while it sounds goes on from the note that sounds.
  await page.evaluate(() => { window.heard.length = 0; });
  await page.getByLabel("clicks under the tune").check();
  await page.getByLabel("home held below").check();
  await eventually(page, () => heard(page), (times) => times.length >= 8, "nothing after the change");
  await page.getByRole("button", { name: "Stop" }).first().click();
});

check("loudness and way of playing are kept, and sound that is refused is told", async (open) => {
  const page = await open_tune(open);
  await page.locator(".player .loudness input").fill("45");
  await page.locator(".playing summary").click();
  await page.getByLabel("Played with").selectOption("1");
  await settled(page);
  await page.reload();
  await page.locator(".staff svg").waitFor();
  equal(await page.locator(".player .loudness input").inputValue(), "45");
  equal(await page.getByLabel("Played with").inputValue(), "1");
  const silent = await open({ before: () => { window.AudioContext = class { constructor() { throw new Error("no device"); } }; } });
  await play(silent).click();
  await silent.locator(".player .silent", { hasText: "This browser gives no sound here." }).waitFor();
});
