/* At the bench, on a phone: batches done, and a plan that moves on another open page; a mix that is poured wrongly. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { check, folderOf, serve, open, go } from "./support.mjs";

export const PHONE = { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true, deviceScaleFactor: 2 };

export async function bench(browser) {
  const folder = folderOf("bench", "desk");
  const server = await serve(folder);
  const plan = await open(browser, `${server.url}/#/plan/desk.json`),
    phone = await open(browser, `${server.url}/#/bench/desk.json`, PHONE);
  const count = async () => Number(/\((\d+)\)/.exec(await plan.getByText(/^All batches/).innerText())[1]);
  const before = await count();
  await phone.getByRole("heading", { name: "Sand 240" }).waitFor();
  await phone.getByRole("button", { name: "Done", exact: true }).tap();
  await phone.getByRole("heading", { name: "Coat 1 of 4, Dewaxed shellac" }).waitFor();
  await plan.waitForFunction(
    (n) => [...document.querySelectorAll("summary")].some((s) => s.textContent === `All batches (${n})`),
    before - 1,
  );
  check("the plan moves on a second page", true);
  await phone.getByRole("button", { name: "Done, but" }).tap();
  await phone.getByLabel("Used so much").fill("15 ml");
  await phone.getByLabel("Who").fill("Ann");
  await phone.getByLabel("Note").fill("a run at the left end");
  await phone.getByRole("button", { name: "Record it" }).tap();
  await plan.waitForFunction(
    (n) => [...document.querySelectorAll("summary")].some((s) => s.textContent === `All batches (${n})`),
    before - 2,
  );
  const log = readFileSync(join(folder, "desk.log"), "utf8")
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));
  check(
    "two entries in the log",
    log.length === 2 && log[1].used === "15 ml" && log[1].person === "Ann" && log[1].note === "a run at the left end",
    log,
  );
  await phone.getByRole("button", { name: "Undo" }).tap();
  await plan.waitForFunction(
    (n) => [...document.querySelectorAll("summary")].some((s) => s.textContent === `All batches (${n})`),
    before - 1,
  );
  check("taken back", readFileSync(join(folder, "desk.log"), "utf8").includes('"undo"'));
  await phone.getByRole("button", { name: "Done, but" }).tap();
  await phone.getByLabel("Ended at").fill("half past");
  phone.allowed.push("status of 4");
  await phone.getByRole("button", { name: "Record it" }).tap();
  await phone.locator(".refused").filter({ hasText: /\w/ }).waitFor();
  check("what cannot be recorded is said where it was typed", true);
  await phone.context().close();
  await plan.context().close();
  await server.stop();
}

export async function mixing(browser) {
  const folder = folderOf("mixing", "desk");
  const server = await serve(folder, "2027-03-04 08:00");
  const phone = await open(browser, `${server.url}/#/bench/desk.json`, PHONE);
  await phone.getByText("Apply by").waitFor();
  const weigh = async () =>
    (await phone.locator(".weigh td:not(.sum)").allInnerTexts()).map((text) => parseFloat(text));
  check("the card of the README's tour", JSON.stringify(await weigh()) === "[61,24]", await weigh());
  check("apply by 11:03", (await phone.locator(".applyby").innerText()).includes("11:03"));
  await phone.getByRole("button", { name: "Stirred now" }).tap();
  await phone
    .locator(".left")
    .getByText(/^2 h 5\d min \d\d s left$/)
    .waitFor();
  const first = await phone.locator(".left").innerText();
  await phone.waitForFunction((was) => document.querySelector(".left").textContent !== was, first);
  check("it counts down", true);
  await phone.getByText("Poured too much?").tap();
  await phone.getByLabel("grams in the cup").fill("70");
  await phone.getByRole("button", { name: "Work it out" }).tap();
  await phone.waitForFunction(() => document.querySelector(".weigh td").textContent === "70 g");
  // 3 : 1 by volume, 0.94 and 1.11 kg/l as the finish's file says: 70 / 0.94 / 3 x 1.11 = 27.6 g.
  check("rescaled for what was poured", JSON.stringify(await weigh()) === "[70,28]", await weigh());
  await go(phone, "#/");
  await go(phone, "#/bench/desk.json");
  await phone
    .locator(".left")
    .getByText(/ left$/)
    .waitFor();
  check("it goes on counting when the page comes back", JSON.stringify(await weigh()) === "[70,28]");
  await phone.context().close();
  await server.stop();
}
