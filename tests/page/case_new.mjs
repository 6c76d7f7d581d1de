/* From an empty folder to the printed sheet, with the keyboard alone, every answer and key counted. */
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { check, folderOf, serve, open, drawn, ROOT, PATIENCE } from "./support.mjs";
import { checkPdf } from "./paper.mjs";

const ANSWERS_MOST = 12,
  KEYS_MOST = 250;

/* A person's hands: every key is counted. */
class Hands {
  constructor(page) {
    Object.assign(this, { page, keys: 0, answers: 0 });
  }
  async press(key) {
    this.keys++;
    await this.page.keyboard.press(key);
  }
  async type(text) {
    for (const c of text) await this.press(c);
  }
  /* Tab until the focus is on what is called so. */
  async reach(name) {
    for (let i = 0; i < 60; i++) {
      if ((await this.focus()).startsWith(name)) return;
      await this.press("Tab");
    }
    throw new Error(`the keyboard does not reach ${name}`);
  }
  focus() {
    return this.page.evaluate(() =>
      (
        document.activeElement.labels?.[0]?.textContent ||
        document.activeElement.getAttribute("aria-label") ||
        document.activeElement.textContent ||
        ""
      ).trim(),
    );
  }
  async answer(name, text) {
    this.answers++;
    await this.reach(name);
    if (text === undefined) return;
    await this.press("Control+a");
    await this.type(text);
  }
}

export async function fiveMinutes(browser) {
  const folder = folderOf("empty");
  const server = await serve(folder);
  const page = await open(browser, server.url);
  await page.getByText("There is no job in this folder yet").waitFor();
  await page.evaluate(
    (text) => navigator.clipboard.writeText(text),
    readFileSync(join(ROOT, "tests/source/lists/carcass.tsv"), "utf8"),
  );
  const hands = new Hands(page);
  await hands.reach("Begin with a cut list");
  await hands.press("Enter");
  await drawn(page, "#/new");
  await hands.answer("Cut list");
  await hands.press("Control+v");
  await page.getByText(/^Read: /).waitFor();
  await hands.answer("Name of the job", "Carcass");
  await hands.answer("Delivery", "2027-04-09");
  await hands.answer("Finish of what is seen", "wiping-varnish");
  await hands.answer("Another finish inside", "shellac-dewaxed");
  await page.locator(".verdict").getByText("Ready").waitFor();
  await page.waitForFunction(() => !document.querySelector("form > button.strong").disabled);
  await hands.reach("Save the job");
  await hands.press("Enter");
  await drawn(page, "#/plan/");
  await page.locator(".verdict").getByText("Ready").waitFor();
  check(
    "from a list to a plan: the files",
    ["carcass.json", "carcass-shop.json", "carcass-prices.csv"].every((f) => readdirSync(folder).includes(f)),
    readdirSync(folder),
  );
  const job = JSON.parse(readFileSync(join(folder, "carcass.json"), "utf8"));
  check(
    "from a list to a plan: what was answered",
    job.job === "Carcass" &&
      job.deliver.startsWith("2027-04-09") &&
      job.schedules.outside[2].coat === "wiping-varnish" &&
      job.schedules.inside[2].coat === "shellac-dewaxed",
    job,
  );
  await hands.reach("Sheet to print");
  const [sheet] = await Promise.all([page.context().waitForEvent("page"), hands.press("Enter")]);
  await sheet.waitForLoadState();
  await hands.press("Control+p");
  check("a sheet to print", (await sheet.locator("body").innerText()).includes("Carcass"));
  check(`at most ${ANSWERS_MOST} answers`, hands.answers > 0 && hands.answers <= ANSWERS_MOST, String(hands.answers));
  check(`at most ${KEYS_MOST} keystrokes`, hands.keys > 20 && hands.keys <= KEYS_MOST, String(hands.keys));
  if (process.env.CASE_TIMES) console.log(`${hands.answers} answers, ${hands.keys} keystrokes`);
  await checkPdf(sheet, "A4", "sheet on A4");
  await sheet.goto(`${new URL(sheet.url()).origin}${new URL(sheet.url()).pathname}?letter=1`);
  await checkPdf(sheet, "Letter", "sheet on Letter");
  await page.context().close();
  check("the server ends cleanly", (await server.stop()) === 0);
}

/* A file is dropped, a mistake in an answer stands beside it. */
export async function droppedList(browser) {
  const folder = folderOf("dropped");
  const server = await serve(folder);
  const page = await open(browser, `${server.url}/#/new`);
  await page.locator("input[type=file]").setInputFiles(join(ROOT, "tests/source/lists/kuechenschrank.csv"));
  await page.getByText(/^Read: /).waitFor();
  const outside = page.getByLabel("Finish of what is seen");
  await outside.fill("danish-oyl");
  await page.locator(".field", { has: outside }).getByText("did you mean").waitFor();
  check("an unknown finish is not saved", await page.getByRole("button", { name: "Save the job" }).isDisabled());
  await outside.fill("danish-oil");
  await page.waitForFunction(() => !document.querySelector("form > button.strong").disabled, null, {
    timeout: PATIENCE,
  });
  check("and mended", !(await outside.getAttribute("aria-invalid")));
  await page.getByRole("button", { name: "Save the job" }).click();
  await drawn(page, "#/plan/");
  const list = readFileSync(join(ROOT, "tests/source/lists/kuechenschrank.csv"));
  check("a dropped list: its name is kept", readdirSync(folder).includes("kuechenschrank.csv"), readdirSync(folder));
  check("a dropped list: not a byte of it is changed", readFileSync(join(folder, "kuechenschrank.csv")).equals(list));
  await page.context().close();
  await server.stop();
}

/* Without a list, a common piece and its sizes are enough. */
export async function commonPiece(browser) {
  const folder = folderOf("common");
  const server = await serve(folder);
  const page = await open(browser, `${server.url}/#/new`);
  await page.getByText("No list yet?").click();
  await page.getByLabel("Kind of piece").selectOption("box");
  const sizes = page.getByLabel("Its sizes");
  await sizes.fill("300 x 200");
  await page.locator(".field", { has: sizes }).getByText("three outer sizes").waitFor();
  await sizes.fill("300 x 200 x 150");
  await page.getByText(/^Read: 2 kinds of parts, 2 parts/).waitFor();
  await page.getByLabel("Name of the job").fill("Tea box");
  await page.waitForFunction(() => !document.querySelector("form > button.strong").disabled);
  await page.getByRole("button", { name: "Save the job" }).click();
  await drawn(page, "#/plan/tea-box.json");
  check("a common piece: its list stands in the folder", readdirSync(folder).includes("tea-box.csv"), readdirSync(folder));
  await page.context().close();
  await server.stop();
}
