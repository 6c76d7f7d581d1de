/* A job in tables and forms: mistakes beside their fields, what it comes to, saving, two who save, what would help. */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { check, folderOf, serve, open, go, drawn, PATIENCE, ROOT } from "./support.mjs";

const at = (folder, file) => readFileSync(join(folder, file), "utf8");

export async function mistakes(browser) {
  const folder = folderOf("mistakes", "desk");
  const server = await serve(folder);
  const page = await open(browser, `${server.url}/#/job/desk.json/parts`);
  const before = at(folder, "desk-parts.csv");
  const cell = page.getByLabel("thickness of top");
  const ready = page.locator(".verdict").getByText("Ready");
  await ready.waitFor();
  await cell.fill("thick");
  await page
    .locator("td", { has: cell })
    .getByText(/^Expected .* found "thick"/)
    .waitFor();
  check("a mistake beside its cell", (await cell.getAttribute("aria-invalid")) === "true");
  check("a mistake is counted", (await page.locator(".verdict").innerText()).startsWith("1 mistake"));
  await cell.fill("30");
  await ready.waitFor();
  check("mended", !(await cell.getAttribute("aria-invalid")));
  await page.getByText(/^Not saved: desk-parts.csv$/).waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  check("saved, and not a byte more", at(folder, "desk-parts.csv") === before.replace("1500,700,25,", "1500,700,30,"));
  await go(page, "#/job/desk.json/schedules");
  const finish = page.getByLabel("finish").first();
  await finish.fill("hardwax-oyl");
  await page.locator(".field", { has: finish }).getByText("did you mean").waitFor();
  await finish.fill("hardwax-oil-two-part");
  await ready.waitFor();
  check("a schedule mended: nothing to save", (await page.locator(".savebar.open").count()) === 0);
  await go(page, "#/job/desk.json/job");
  await page.getByLabel("Delivery", { exact: true }).fill("next week");
  await page
    .locator(".field", { has: page.getByLabel("Delivery", { exact: true }) })
    .getByText(/^Expected/)
    .waitFor();
  await go(page, "#/job/desk.json/parts");
  await page.getByRole("button", { name: "Go there" }).click();
  await drawn(page, "#/job/desk.json/job");
  await page.getByRole("button", { name: "Undo changes" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Undo changes" }).click();
  await ready.waitFor();
  check("undone", (await page.getByLabel("Delivery", { exact: true }).inputValue()).startsWith("2027-03-16"));
  await page.context().close();
  await server.stop();
}

export async function figures(browser) {
  const folder = folderOf("figures", "desk");
  const server = await serve(folder);
  const page = await open(browser, `${server.url}/#/job/desk.json/parts`);
  const total = page.locator(".results dd.sum").first();
  await page.waitForFunction(() => document.querySelector(".results dd.sum")?.textContent === "5.77 m²"); // as the README's tour has it
  await page.getByLabel("qty of leg").fill("8");
  await page.waitForFunction(() => document.querySelector(".results dd.sum").textContent === "6.17 m²"); // four legs more: 0.40 m² more
  const rows = await page.locator("table.edit input[aria-label^='part of']").count();
  await page.getByRole("button", { name: "Copy leg" }).click();
  check("a row is copied", (await page.locator("table.edit input[aria-label^='part of']").count()) === rows + 1);
  await page.waitForFunction(() => document.querySelector(".results dd.sum").textContent === "6.97 m²");
  await page.getByRole("button", { name: "Remove leg" }).first().click();
  await page.waitForFunction(() => document.querySelector(".results dd.sum").textContent === "6.17 m²");
  check(
    "the price is beside it",
    /\d+\.\d\d GBP/.test(await page.locator(".results").innerText()),
    await total.innerText(),
  );
  check("the parts are drawn", (await page.locator("svg.drawing").count()) >= 5);
  const top = page.getByRole("img", { name: "Drawing of top with" });
  check("with their sizes", (await top.textContent()).includes("1500"), await top.textContent());
  await page.getByLabel("length of top").fill("1640");
  await page.waitForFunction(() => document.querySelector("svg.drawing[aria-label^='Drawing of top ']").textContent.includes("1640"));
  await page.context().close();
  await server.stop();
}

const spreadsheet = (rows) =>
  execFileSync("python3", [join(ROOT, "tests/page/spreadsheet.py")], { input: JSON.stringify(rows) });

/* A spreadsheet file dropped on the list of a job takes its place, and a broken one says so. */
export async function droppedSheet(browser) {
  const folder = folderOf("sheet", "desk");
  const server = await serve(folder);
  const page = await open(browser, `${server.url}/#/job/desk.json/parts`);
  page.allowed.push("422");
  const drop = async (name, bytes) => {
    const moved = await page.evaluateHandle(
      ([name, numbers]) => {
        const moved = new DataTransfer();
        moved.items.add(new File([new Uint8Array(numbers)], name));
        return moved;
      },
      [name, [...bytes]],
    );
    await page.locator("details.paste").dispatchEvent("drop", { dataTransfer: moved });
  };
  await page.locator("details.paste").waitFor();
  await drop("broken.xlsx", Buffer.from("PK"));
  await page.getByText(/broken\.xlsx: expected a spreadsheet file/).waitFor();
  await drop("shelves.xlsx", spreadsheet([["part", "qty", "length"], ["side", 2, 900], ["shelf", 3, 850]]));
  await page.getByRole("dialog").getByRole("button", { name: "Put it in place of the list" }).click();
  await page.getByText(/^Not saved: desk-parts.csv$/).waitFor();
  const parts = await page.locator("table.edit input[aria-label^='part of']").count();
  check("the rows of a dropped spreadsheet are the list", parts === 2, parts);
  check("as they stand there", (await page.getByLabel("length of shelf").inputValue()) === "850");
  await page.context().close();
  await server.stop();
}

/* Two jobs that want the same person at the same time. */
export async function clash(browser) {
  const folder = folderOf("clash", "desk");
  const server = await serve(folder);
  const page = await open(browser, server.url);
  await page.getByText("sand 180").first().waitFor();
  check("one job has nobody in two places", (await page.getByText("planned for itself").count()) === 0);
  const second = at(folder, "desk.json").replace("Writing desk in oak", "Second desk");
  writeFileSync(join(folder, "second.json"), second);
  await page.getByText(/Two jobs at \d\d:\d\d: each is planned for itself/).waitFor();
  check("how to plan them together", (await page.locator("main code").innerText()) === "coatwright plan desk.json second.json");
  await page.context().close();
  await server.stop();
}

export async function conflict(browser) {
  const folder = folderOf("conflict", "desk");
  const server = await serve(folder);
  const one = await open(browser, `${server.url}/#/job/desk.json/job`),
    two = await open(browser, `${server.url}/#/job/desk.json/job`);
  two.allowed.push("409");
  for (const [page, text] of [
    [one, "Ann's desk"],
    [two, "Ben's desk"],
  ])
    await page.getByLabel("Name", { exact: true }).fill(text);
  await one.getByRole("button", { name: "Save", exact: true }).click();
  await one.getByText("Saved.").waitFor();
  check("the first is saved", at(folder, "desk.json").includes("Ann's desk"));
  await two.getByRole("button", { name: "Save", exact: true }).click();
  const dialog = two.getByRole("dialog");
  await dialog.getByText("Changed by somebody else meanwhile").waitFor();
  const text = await dialog.innerText();
  check("both versions are shown", text.includes("Ann's desk") && text.includes("Ben's desk"));
  check("nothing is written before it is asked", at(folder, "desk.json").includes("Ann's desk"));
  await dialog.getByRole("button", { name: "Save mine over it" }).click();
  await two.getByText("Saved.").waitFor();
  check("the second is saved when it says so", at(folder, "desk.json").includes("Ben's desk"));
  await one.waitForFunction(() => document.querySelector("input").value === "Ben's desk");
  check("the first sees it", true);
  await go(two, "#/job/desk.json/text");
  await two.getByRole("button", { name: "Earlier versions" }).click();
  await two
    .getByRole("button", { name: /^Show the version/ })
    .first()
    .click();
  check("an earlier version can be taken", (await two.getByRole("dialog").innerText()).includes("coatwright-job/1"));
  await one.context().close();
  await two.context().close();
  await server.stop();
}

export async function help(browser) {
  const folder = folderOf("help", "doors");
  writeFileSync(join(folder, "doors.json"), at(folder, "doors.json").replace("2027-03-18 12:00", "2027-03-13 12:00"));
  const before = at(folder, "doors.json") + at(folder, "doors-shop.json");
  const server = await serve(folder);
  const page = await open(browser, `${server.url}/#/plan/doors.json`);
  const change = page.getByRole("button", { name: /^Make this change/ }).first();
  await change.waitFor({ timeout: 4 * PATIENCE }); // each line of what would help is a plan of its own
  const ready = await page.locator(".verdict").innerText();
  await change.click();
  await page.getByRole("dialog").getByRole("button", { name: "Make it" }).click();
  await page.getByText("The change was made.").waitFor();
  await page.waitForFunction(
    (was) => document.querySelector(".verdict")?.innerText && document.querySelector(".verdict").innerText !== was,
    ready,
  );
  check("what would help is in the files", at(folder, "doors.json") + at(folder, "doors-shop.json") !== before);
  await page.context().close();
  await server.stop();
}
