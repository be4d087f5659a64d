// What Python found, for the scripts to find as well; a test writes the file before these run.

import { readFileSync } from "node:fs";

export const cases = JSON.parse(readFileSync(process.env.CASES, "utf-8"));
