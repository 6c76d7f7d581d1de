/* Every screen on a phone, a tablet and a desk, light and dark: what can be stated as a rule, and axe-core. PAGE_PICTURES=folder keeps a
 * picture of each. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { check, checkAxe, folderOf, serve, open, go, ROOT } from "./support.mjs";
import { checkLayout } from "./layout.mjs";

const WIDTHS = [360, 768, 1280];
const THUMB = 48;
const SCREENS = {
  home: "#/",
  plan: "#/plan/desk.json",
  bench: "#/bench/desk.json",
  parts: "#/job/desk.json/parts",
  pieces: "#/job/desk.json/pieces",
  schedules: "#/job/desk.json/schedules",
  job: "#/job/desk.json/job",
  shop: "#/job/desk.json/shop",
  finishes: "#/job/desk.json/finishes",
  text: "#/job/desk.json/text",
  new: "#/new",
};

export const light = (browser) => looks(browser, "light", WIDTHS);
export const dark = (browser) => looks(browser, "dark", WIDTHS.slice(0, 1));

async function looks(browser, scheme, widths) {
  const server = await serve(folderOf(`looks-${scheme}`, "desk", "doors"), "2027-03-04 08:00");
  const page = await open(browser, server.url, { colorScheme: scheme, reducedMotion: "reduce" });
  for (const [name, hash] of Object.entries(SCREENS)) {
    await go(page, hash);
    if (name === "new") await list(page);
    if (name === "plan") await page.locator(".picture img").evaluate((img) => img.decode());
    for (const width of widths) {
      await page.setViewportSize({ width, height: width === 360 ? 740 : 900 });
      if (process.env.PAGE_PICTURES)
        await page.screenshot({
          path: join(process.env.PAGE_PICTURES, `${name}-${width}-${scheme}.png`),
          fullPage: true,
        });
      if (scheme === "light") await checkLayout(page, `${name} at ${width}`, name === "bench" ? THUMB : 0);
      if (width !== 768) await checkAxe(page, `${name} at ${width}, ${scheme}`);
    }
  }
  await page.context().close();
  await server.stop();
}

async function list(page) {
  await page.getByLabel("Cut list").fill(readFileSync(join(ROOT, "tests/source/lists/bookcase.csv"), "utf8"));
  await page.getByText(/^Read: /).waitFor();
}

/* What stands in files is text, whatever it looks like. */
export async function escaped(browser) {
  const folder = folderOf("escaped", "desk");
  const evil = "<img src=x onerror=document.title='broken'><b>bold</b>";
  const job = JSON.parse(readFileSync(join(folder, "desk.json"), "utf8"));
  writeFileSync(join(folder, "desk.json"), JSON.stringify({ ...job, job: evil, customer: evil }));
  writeFileSync(
    join(folder, "desk-parts.csv"),
    readFileSync(join(folder, "desk-parts.csv"), "utf8").replaceAll("top,top,", `${evil},top,`),
  );
  const server = await serve(folder);
  const page = await open(browser, server.url);
  for (const hash of ["#/", "#/plan/desk.json", "#/job/desk.json/parts", "#/bench/desk.json"]) {
    await go(page, hash);
    check(
      `${hash}: markup in a file is text`,
      await page.evaluate(() => !document.querySelector("img[src=x], main b") && document.title !== "broken"),
    );
  }
  check("and is shown as it is written", (await go(page, "#/"), await page.locator("main").innerText()).includes(evil));
  await page.context().close();
  await server.stop();
}
