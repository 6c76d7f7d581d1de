/* A server on a folder, a browser, and checks that are counted. */
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { mkdirSync, mkdtempSync, cpSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, dirname, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const need = createRequire(join(process.env.PAGE_MODULES, "x"));
const { chromium } = need("playwright-core");
export const AXE = need.resolve("axe-core/axe.min.js");
export const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const PROGRAM = process.env.COATWRIGHT || join(ROOT, "build/coatwright");
const SCRATCH = process.env.TEST_TMP || mkdtempSync(join(tmpdir(), "page-"));
export const PATIENCE = Number(process.env.PAGE_PATIENCE) || 60000;
export const NOW = "2027-03-01 08:00";

let passed = 0,
  failed = 0;
export function check(what, good, told = "") {
  if (good) return void passed++;
  failed++;
  console.log(`${what}: ${typeof told === "string" ? told : JSON.stringify(told)}`.slice(0, 2000));
}
export function closing() {
  console.log(`${passed} passed, ${failed} failed`);
  return failed ? 1 : 0;
}

/* A folder with copies of examples, by the beginning of their names. */
export function folderOf(name, ...examples) {
  const folder = join(SCRATCH, name);
  mkdirSync(folder, { recursive: true });
  for (const example of examples)
    for (const end of [".json", "-parts.csv", "-shop.json", "-finishes"])
      cpSync(join(ROOT, "examples", example + end), join(folder, example + end), { recursive: true });
  return folder;
}
export const scratch = (name) => join(SCRATCH, name);

/* Servers end with the tests, however these end. */
const children = new Set();
process.on("exit", () => children.forEach((child) => child.kill("SIGKILL")));
for (const signal of ["SIGTERM", "SIGINT"]) process.on(signal, () => process.exit(1));

/* Gives {url, stop()}: the server has told its address before. */
export function serve(folder, now = NOW) {
  const child = spawn(PROGRAM, ["serve", folder, "--port", "0", "--now", now], {
    stdio: ["ignore", "pipe", "inherit"],
    env: { ...process.env, TZ: "Europe/London" },
  });
  children.add(child);
  return new Promise((settle, fail) => {
    let text = "";
    child.stdout.on("data", (data) => {
      text += data;
      const url = /http:\/\/127\.0\.0\.1:\d+/.exec(text);
      if (url)
        settle({
          url: url[0],
          stop: () => new Promise((ended) => (child.once("exit", (code) => ended(code)), child.kill("SIGTERM"))),
        });
    });
    child.once("exit", (code) => fail(new Error(`the server ended with ${code} before it listened`)));
  });
}

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
export const launch = () => chromium.launch({ executablePath: "/usr/bin/chromium", headless: true, args: FLAGS });

/* What no page may do: reach another host, or say something on the console. */
const strayed = [],
  complained = [];
export async function open(browser, url, look = {}) {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    locale: "en-GB",
    timezoneId: "Europe/London",
    ...look,
  });
  context.setDefaultTimeout(PATIENCE);
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await context.addInitScript({ path: AXE });
  const page = await context.newPage();
  page.on("request", (request) => new URL(request.url()).hostname === "127.0.0.1" || strayed.push(request.url()));
  page.on(
    "console",
    (message) =>
      ["error", "warning"].includes(message.type()) &&
      !expected(page, message.text()) &&
      complained.push(`${message.text()} ${message.location().url}`),
  );
  page.on("pageerror", (error) => complained.push(String(error)));
  page.allowed = [];
  await page.goto(url);
  return page;
}
/* Chromium itself writes a line for every refused request: those that a case provokes are named by it. */
const expected = (page, text) => page.allowed.some((part) => text.includes(part));
export function checkConduct() {
  check("no request leaves loopback", !strayed.length, strayed);
  check("nothing on the console", !complained.length, complained);
}

/* The screen of a hash is drawn. */
export async function go(page, hash) {
  await page.evaluate((to) => {
    document.getElementById("main").dataset.ready = "";
    if (location.hash === to) dispatchEvent(new HashChangeEvent("hashchange"));
    else location.hash = to;
  }, hash);
  await drawn(page, hash);
}
export const drawn = (page, hash) =>
  page.waitForFunction(
    (to) => decodeURIComponent(document.getElementById("main").dataset.ready || "").startsWith(to),
    hash,
  );

export async function checkAxe(page, what) {
  const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  check(
    `${what}: axe finds nothing`,
    !violations.length,
    violations.map(
      (v) =>
        `${v.id}: ${v.nodes
          .slice(0, 3)
          .map((n) => `${n.target} ${n.any?.[0]?.message || ""}`)
          .join(" | ")}`,
    ),
  );
}
