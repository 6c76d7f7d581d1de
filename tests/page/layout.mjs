/* Rules of a screen that can be measured: nothing lies outside of it, nothing lies over anything else, no text is cut, and what a thumb must
 * hit is large enough. */
import { check } from "./support.mjs";

/* In the page: texts and controls that are seen, with their boxes. What scrolls sideways inside of a box of its own may reach beyond the
 * screen; what stays in place while the page scrolls may lie over it. */
function measure(least) {
  const seen = (node) => node.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true });
  const inside = (node, test) => {
    for (let at = node; at && at !== document.documentElement; at = at.parentElement) if (test(at)) return at;
    return null;
  };
  const style = (node) => getComputedStyle(node);
  const scrolls = (node) =>
    inside(node, (at) => ["auto", "scroll"].includes(style(at).overflowX) && at.scrollWidth > at.clientWidth);
  const floats = (node) => inside(node, (at) => ["sticky", "fixed"].includes(style(at).position));
  const hidden = (node) => inside(node, (at) => style(at).clipPath !== "none");
  const told = (node) =>
    `${node.tagName.toLowerCase()}${node.className ? `.${node.className}` : ""} "${(node.getAttribute?.("aria-label") || node.value || node.textContent || "").trim().slice(0, 40)}"`;
  const boxes = [];
  const add = (node, rect) =>
    rect.width > 1 &&
    rect.height > 1 &&
    boxes.push({
      node,
      told: told(node),
      x: rect.left,
      y: rect.top + scrollY,
      right: rect.right,
      bottom: rect.bottom + scrollY,
    });
  for (const node of document.body.querySelectorAll("button, input, select, textarea, a.button, img, summary"))
    if (seen(node) && !hidden(node)) add(node, node.getBoundingClientRect());
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let text; (text = texts.nextNode());) {
    const node = text.parentElement;
    if (
      !text.data.trim() ||
      !seen(node) ||
      hidden(node) ||
      node.closest("button, option, textarea, a.button, summary, script, noscript, datalist")
    )
      continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    for (const rect of range.getClientRects()) add(node, rect);
  }
  const out = boxes
    .filter((b) => (b.x < -1 || b.right > innerWidth + 1) && !scrolls(b.node))
    .map((b) => `${b.told} from ${Math.round(b.x)} to ${Math.round(b.right)}`);
  const over = [];
  const flat = boxes.filter((b) => !floats(b.node)).sort((a, b) => a.y - b.y);
  flat.forEach((a, i) => {
    for (let j = i + 1; j < flat.length && flat[j].y < a.bottom - 2; j++) {
      const b = flat[j];
      if (a.node === b.node || a.node.contains(b.node) || b.node.contains(a.node)) continue;
      if (
        Math.min(a.right, b.right) - Math.max(a.x, b.x) > 2 &&
        Math.min(a.bottom, b.bottom) - b.y > 2 &&
        scrolls(a.node) === scrolls(b.node)
      )
        over.push(`${a.told} and ${b.told}`);
    }
  });
  const cut = [
    ...document.body.querySelectorAll("button, a, p, h1, h2, h3, label, td, th, li, dd, dt, legend, summary"),
  ]
    .filter(
      (node) =>
        seen(node) &&
        !hidden(node) &&
        node.clientWidth &&
        node.scrollWidth > node.clientWidth + 1 &&
        ["hidden", "clip"].includes(style(node).overflowX),
    )
    .map(told);
  const small = [
    ...document.body.querySelectorAll("main button, main summary, main input:not([type=checkbox]), main select, nav a"),
  ]
    .filter((node) => seen(node) && !hidden(node) && node.getBoundingClientRect().height < least)
    .map((node) => `${told(node)} ${node.getBoundingClientRect().height}`);
  const tiny = boxes
    .filter((b) => b.node.tagName !== "IMG" && !b.node.closest("svg.drawing")) // a picture may be made larger
    .filter((b) => parseFloat(style(b.node).fontSize) < 16)
    .map((b) => `${b.told} ${style(b.node).fontSize}`);
  return { wide: document.documentElement.scrollWidth - innerWidth, out, over, cut, small, tiny, count: boxes.length };
}

/* `least`: how high at least what is touched is, in pixels. */
export async function checkLayout(page, what, least = 0) {
  const found = await page.evaluate(measure, least);
  check(`${what}: something is on it`, found.count > 5, found.count);
  check(`${what}: nothing to scroll sideways`, found.wide <= 0, found.wide);
  check(`${what}: nothing outside`, !found.out.length, found.out.slice(0, 6));
  check(`${what}: nothing lies over anything`, !found.over.length, found.over.slice(0, 6));
  check(`${what}: no text cut`, !found.cut.length, found.cut.slice(0, 6));
  check(`${what}: no text too small`, !found.tiny.length, found.tiny.slice(0, 6));
  if (least) check(`${what}: large enough for a thumb`, !found.small.length, found.small.slice(0, 6));
}
