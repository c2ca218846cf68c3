// Uses of the elements' types: every line must compile, and each after a mark must not.

import type { HomeDetail, Mode, ModewrightTune, ModewrightWords, NoteDetail } from "./modewright-elements.js";

document.addEventListener("modewright-home", (event) => {
  const detail: HomeDetail = event.detail;
  const mode: Mode = detail.mode;
  const sharps: number | null = detail.signature;
  console.log(detail.home.length, mode, sharps, detail.notes.join(" "), detail.words);
  // @ts-expect-error The mode has a name of its own.
  const major: "major" = detail.mode;
  console.log(major);
});

window.addEventListener("modewright-verdict", ({ detail }) => {
  if (detail.verdict === "clear" && detail.chance !== null) console.log(detail.chance.toFixed(2));
  // @ts-expect-error There is no such verdict.
  if (detail.verdict === "sure") console.log();
  // @ts-expect-error There may be no home.
  detail.home.length;
});

const wheel = document.createElement("modewright-wheel");
wheel.setAttribute("home", "E");
wheel.addEventListener("modewright-home", function (event) {
  console.log(this.localName, event.detail.notes.length);
});
wheel.addEventListener("click", (event) => console.log(event.clientX));
wheel.addEventListener("of-somebody-else", (event) => console.log(event.type));
wheel.removeEventListener("modewright-home", () => {});

const tune: ModewrightTune | null = document.querySelector("modewright-tune");
tune?.addEventListener("modewright-note", (event: CustomEvent<NoteDetail>) => {
  const bar: number | null = event.detail.bar;
  console.log(bar);
  // @ts-expect-error A note has no title.
  event.detail.title;
});
for (const lesson of document.getElementsByTagName("modewright-lesson")) {
  // An event of an element within it, or of any other.
  lesson.parentElement?.addEventListener("modewright-note", ({ detail }) => console.log(detail.words));
}
// @ts-expect-error This event tells a home, not a bar.
document.querySelector("modewright-ask")?.addEventListener("modewright-home", ({ detail }) => detail.bar);

const view: ModewrightWords["view"] = "fifths";
wheel.setAttribute("view", view);
// @ts-expect-error There are two orders.
const other: ModewrightWords["view"] = "thirds";
console.log(other);
