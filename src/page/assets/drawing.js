/* Each part's own piece of the drawing of all parts. The drawing is a column or two of
 * cards; a card begins with the part's name in bold and reaches to the next one. */
import { post, name } from "/assets/api.js";

const SVG = "http://www.w3.org/2000/svg";
const MARGIN = 8,
  NAME = 13,
  LARGER = 4 / 3; // its small print is as large as the page's
const FOOT = /^areas, page \d/;

/* What each part is drawn with, by its name, and where: {nodes, x, y, width, height}. */
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
    const part = all[start].textContent.replace(/, \d+ of it .*$/, "");
    if (!cards.has(part))
      cards.set(part, {
        nodes,
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

/* Reads the drawing of the parts as they are edited; gives (part name) => picture or null. */
export async function readDrawing(draft) {
  const { svg } = await post(`/api/drawing/${name(draft.file)}`, { texts: draft.edited() });
  const cards = cardsOf(new DOMParser().parseFromString(svg, "image/svg+xml"));
  return (part) => {
    const card = cards.get(part);
    if (!card) return null;
    const image = document.createElementNS(SVG, "svg");
    image.setAttribute("class", "drawing");
    image.setAttribute("role", "img");
    image.setAttribute("aria-label", `Drawing of ${part} with its regions and areas`);
    image.setAttribute("width", Math.round(card.width * LARGER));
    image.setAttribute("height", Math.round(card.height * LARGER));
    image.setAttribute("viewBox", [card.x, card.y, card.width, card.height].map((n) => n.toFixed(1)).join(" "));
    image.append(...card.nodes.map((node) => document.importNode(node, true)));
    return image;
  };
}
