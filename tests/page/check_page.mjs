/* Every case has a folder and a server of its own; all share one browser. CASE=name runs one of them. */
import { launch, check, checkConduct, closing } from "./support.mjs";
import * as making from "./case_new.mjs";
import * as editing from "./case_edit.mjs";
import * as bench from "./case_bench.mjs";
import * as looks from "./case_looks.mjs";

const browser = await launch();
for (const [name, run] of Object.entries({ ...making, ...editing, ...bench, ...looks })) {
  if (process.env.CASE && process.env.CASE !== name) continue;
  const began = Date.now();
  try {
    await run(browser);
  } catch (broken) {
    check(name, false, broken.stack);
  }
  if (process.env.CASE_TIMES) console.log(`${name}: ${((Date.now() - began) / 1000).toFixed(1)} s`);
}
checkConduct();
await browser.close();
process.exit(closing());
