// Runs every check of the built page: node check.mjs [PART OF A NAME]

import { runAll } from "./harness.mjs";
import "./text.mjs";
import "./limits.mjs";
import "./sound.mjs";
import "./wheel.mjs";
import "./instrument.mjs";
import "./lesson.mjs";
import "./offline.mjs";
import "./looks.mjs";
import "./elements.mjs";
import "./budgets.mjs";
import "./lighthouse.mjs";

await runAll();
