// What a page does with the package: built by a bundler, run in a browser. The title says how it
// went.

import start, { find } from "modewright";
import startPrint, { sheetSvg } from "modewright/print";

const tune = "X:1\nT:Slack Water (invented)\nM:4/4\nL:1/8\nK:Edor\nE2BE dEBE|E2BE AFDF|E2BE dEBE|BABc dAFD|]\n";

try {
  await Promise.all([start(), startPrint()]);
  const { home, mode } = find(tune);
  const notes = sheetSvg(tune).match(/data-i=/g).length;
  document.title = `${home} ${mode}, ${notes} notes`;
} catch (why) {
  document.title = `failed: ${why}`;
}
