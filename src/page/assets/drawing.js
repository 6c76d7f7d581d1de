/* Each part's own piece of the drawing of all parts: the same picture, of which a window is shown. The drawing is a column or two of
 * cards; a card begins with the part's name in bold and reaches to the next one. */
import { h } from "/assets/dom.js";

const MARGIN = 8,
  NAME = 13;
const FOOT = /^areas, page \d/;

/* Where each part is drawn, by its name: {x, y, width, height}. */
function cardsOf(svg) {
  const all = [...svg.querySelectorAll("text, rect, path")];
  const starts = all
    .map((node, i) =>
      node.tagName === "text" &&
      node.getAttribute("font-weight") === "bold" &&
      node.getAttribute("font-size") === String(NAME)
        ? i
        : -1,
    )
    .filter((i) => i >= 0);
  const cards = new Map();
  starts.forEach((start, i) => {
    const nodes = all
      .slice(start, starts[i + 1])
      .filter((node) => node.tagName !== "rect" || !node.hasAttribute("rx"))
      .filter((node) => !FOOT.test(node.textContent));
    const box = nodes.map(boxOf).reduce(joined);
    const name = all[start].textContent.replace(/, \d+ of it .*$/, "");
    if (!cards.has(name))
      cards.set(name, {
        x: box.x - MARGIN,
        y: box.y - MARGIN,
        width: box.right - box.x + 2 * MARGIN,
        height: box.bottom - box.y + 2 * MARGIN,
      });
  });
  return cards;
}

function boxOf(node) {
  const of = (key) => Number(node.getAttribute(key) || 0);
  if (node.tagName === "path") {
    const at = node
      .getAttribute("d")
      .match(/-?\d+(\.\d+)?/g)
      .map(Number);
    const xs = at.filter((_, i) => i % 2 === 0),
      ys = at.filter((_, i) => i % 2 === 1);
    return { x: Math.min(...xs), y: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
  }
  if (node.tagName === "rect")
    return { x: of("x"), y: of("y"), right: of("x") + of("width"), bottom: of("y") + of("height") };
  const size = of("font-size"),
    wide = node.textContent.length * size * 0.6;
  const left = node.getAttribute("text-anchor") === "middle" ? of("x") - wide / 2 : of("x");
  return { x: left, y: of("y") - size, right: left + wide, bottom: of("y") + size * 0.3 };
}
const joined = (a, b) => ({
  x: Math.min(a.x, b.x),
  y: Math.min(a.y, b.y),
  right: Math.max(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
});

/* Reads the drawing at `path`; gives (part name) => picture or null. */
export async function readDrawing(path) {
  const response = await fetch(path, { cache: "no-store" });
  if (!response.ok) return () => null;
  const text = await response.text();
  const cards = cardsOf(new DOMParser().parseFromString(text, "image/svg+xml"));
  const stamp = [...text].reduce((sum, c) => (sum * 31 + c.charCodeAt(0)) | 0, 7) >>> 0;
  return (name) => {
    const card = cards.get(name);
    if (!card) return null;
    const window = [card.x, card.y, card.width, card.height].map((n) => n.toFixed(1)).join(",");
    const image = h("img", {
      class: "drawing",
      loading: "lazy",
      alt: `Drawing of ${name} with its regions and areas`,
      width: Math.round(card.width),
      height: Math.round(card.height),
      src: `${path}?v=${stamp}#svgView(viewBox(${window}))`,
    });
    image.style.aspectRatio = `${card.width} / ${card.height}`;
    return image;
  };
}
