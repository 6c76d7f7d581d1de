/* What a browser prints: pages counted by pdfinfo, words found by pdftotext (poppler). */
import { execFileSync } from "node:child_process";
import { check, scratch } from "./support.mjs";

const POINTS = { A4: [595, 842], Letter: [612, 792] };
const letters = (text) => {
  const counts = new Map();
  for (const c of text.normalize("NFKC").replace(/\s/g, "")) counts.set(c, (counts.get(c) || 0) + 1);
  return counts;
};

/* Words that reach over the edge of their page, each page having its own size: a drawing may lie across. */
function wordsOver(text) {
  let size = [0, 0],
    count = 0;
  const over = [];
  for (const at of text.matchAll(
    /<page width="([\d.]+)" height="([\d.]+)">|<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)/g,
  )) {
    if (at[1]) size = [Number(at[1]), Number(at[2])];
    else if (++count && (at[3] < 0 || at[4] < 0 || at[5] > size[0] || at[6] > size[1])) over.push(at[7]);
  }
  return { count, over };
}

/* No text is cut: every letter that the page has is on the paper, and no word reaches over an edge. No page is empty. */
export async function checkPdf(page, paper, what) {
  const path = scratch(`${paper}.pdf`);
  await page.pdf({ path, format: paper, preferCSSPageSize: false });
  const info = execFileSync("pdfinfo", [path], { encoding: "utf8" });
  const count = Number(/^Pages:\s+(\d+)/m.exec(info)[1]);
  const size = /^Page size:\s+([\d.]+) x ([\d.]+)/m.exec(info).slice(1).map(Number);
  check(
    `${what}: its size`,
    size.every((side, i) => Math.abs(side - POINTS[paper][i]) <= 1),
    size,
  );
  check(`${what}: pages`, count >= 3 && count <= 12, String(count));
  const pages = execFileSync("pdftotext", ["-raw", path, "-"], { encoding: "utf8" }).split("\f").slice(0, count);
  check(
    `${what}: no page is empty`,
    pages.every((text) => text.trim().length > 20),
    pages.map((text) => text.trim().length),
  );
  const { count: found, over } = wordsOver(execFileSync("pdftotext", ["-bbox", path, "-"], { encoding: "utf8" }));
  check(`${what}: no word over an edge`, found > 100 && !over.length, over);
  await page.emulateMedia({ media: "print" });
  const shown = await page.evaluate(() => document.body.innerText);
  await page.emulateMedia({ media: null });
  const there = letters(pages.join(""));
  const gone = [...letters(shown)].filter(([c, n]) => /[\p{L}\p{N}]/u.test(c) && (there.get(c) || 0) < n);
  check(`${what}: no text cut`, !gone.length, gone);
}
