// Runs every check of the built page: node check.mjs [PART OF A NAME]

import { runAll } from "./harness.mjs";
import "./text.mjs";
import "./sound.mjs";
import "./wheel.mjs";
import "./looks.mjs";
import "./budgets.mjs";

await runAll();
