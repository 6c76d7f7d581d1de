/* Every case has a folder and a server of its own; all share one browser, a few at a time. CASE=name runs one of them. */
import { launch, check, checkConduct, closing } from "./support.mjs";
import * as making from "./case_new.mjs";
import * as editing from "./case_edit.mjs";
import * as bench from "./case_bench.mjs";
import * as looks from "./case_looks.mjs";

const AT_A_TIME = 4;
const browser = await launch();
const cases = Object.entries({ ...looks, ...making, ...editing, ...bench }).filter(
  ([name, run]) => run instanceof Function && (!process.env.CASE || process.env.CASE === name),
);

async function runNext() {
  for (let next; (next = cases.shift());) {
    const [name, run] = next;
    const began = Date.now();
    try {
      await run(browser);
    } catch (broken) {
      check(name, false, broken.stack);
    }
    if (process.env.CASE_TIMES) console.log(`${name}: ${((Date.now() - began) / 1000).toFixed(1)} s`);
  }
}
await Promise.all(Array.from({ length: AT_A_TIME }, runNext));
checkConduct();
await browser.close();
process.exit(closing());
