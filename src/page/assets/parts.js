/* The part list as a table with the drawing of each part, and how a list gets in from elsewhere. */
import { h, fill, button, ask, say } from "/assets/dom.js";
import { Table, CsvSource, JsonSource } from "/assets/table.js";
import { decoded, post, isSheet, base64 } from "/assets/api.js";
import { readDrawing } from "/assets/drawing.js";
import { addRow, readTable } from "/assets/csv.js";

const COLUMNS = [
  "part",
  "piece",
  "qty",
  "shape",
  "wood",
  "core",
  "size",
  "length",
  "width",
  "thickness",
  "height",
  "diameter",
  "all",
  "face",
  "back",
  "edges",
  "ends",
  "inside",
  "outside",
  "covered",
  "chamfer",
  "roundover",
  "grooves",
  "open",
  "sides",
  "base",
  "points",
  "corners",
  "side",
  "hole",
  "width2",
  "diameter2",
  "profile",
  "girth",
  "member",
  "area",
  "region",
  "file",
  "file-units",
  "work",
  "note",
];
const CORE = ["part", "qty", "wood", "length", "width", "thickness"];
const SCHEDULED = ["all", "face", "back", "edges", "ends", "inside", "outside"];
/* Other names by which a heading is known; the program knows more, these find the heading's row. */
const MORE = (
  "name description item component quantity count pcs material species timber notes finish room cabinet unit assembly l w t h thick thk depth dia " +
  "bezeichnung bauteil anzahl menge stk holz material länge breite dicke höhe designation nom quantité bois longueur largeur epaisseur épaisseur hauteur"
).split(" ");
const NAMES = ["part", "name", "description", "item", "bezeichnung", "bauteil", "designation", "nom"];
const SHAPES = [
  "board",
  "box",
  "frame",
  "round",
  "disc",
  "taper",
  "cone",
  "turning",
  "moulding",
  "triangle",
  "polygon",
  "mesh",
  "area",
];

const plain = (text) =>
  text
    .toLowerCase()
    .replace(/[([].*$/, "")
    .replace(/[ .:*,]+$/, "")
    .trim();
export const knownColumn = (text) => COLUMNS.includes(plain(text)) || MORE.includes(plain(text));

const listOf = (column) => {
  const word = plain(column);
  if (SCHEDULED.includes(word)) return "schedules";
  return { wood: "woods", material: "woods", core: "woods", shape: "shapes" }[word] || null;
};

export function partsSection(draft, mistakes, job, suggest) {
  const inline = Array.isArray(draft.value({ file: job, pointer: "/parts" }));
  const file = draft.of("parts");
  suggest("shapes", SHAPES);
  if (!inline && (!file || draft.texts[file].editable === false))
    return h(
      "section",
      {},
      h(
        "p",
        {},
        `The part list ${file || draft.value({ file: job, pointer: "/parts" }) || ""} is a spreadsheet: change it there, and save it into the folder again.`,
      ),
    );
  const holder = h("div", {});
  let spots = [],
    drawing = null;
  const show = () => spots.forEach(([part, spot]) => fill(spot, drawing?.(part)));
  const draw = () => {
    mistakes.clear();
    spots = [];
    const source = inline
      ? new JsonSource(draft, { file: job, pointer: "/parts" }, ["part", "qty", "wood", "length", "width", "thickness"])
      : new CsvSource(draft, file, knownColumn);
    const under = (names, row) => {
      const spot = h("div", { class: "spot" });
      spots.push([
        row[
          Math.max(
            0,
            names.findIndex((n) => NAMES.includes(plain(n))),
          )
        ],
        spot,
      ]);
      return spot;
    };
    const table = new Table(mistakes, {
      key: "parts",
      source,
      caption: "Parts",
      one: "a part",
      listOf,
      columns: COLUMNS,
      fresh: { qty: "1" },
      under,
      redrawn: show,
      core: (n) => CORE.includes(plain(n)),
    });
    fill(holder, table.node);
    show();
    draft.tell("state");
  };
  draw();
  let drawn = null;
  const look = async () => {
    const texts = JSON.stringify(draft.edited());
    if (texts === drawn || draft.state.errors.length) return; // with mistakes there is none: the last one stays
    drawn = texts;
    const found = await readDrawing(draft).catch(() => null);
    if (!found || drawn !== texts) return;
    drawing = found;
    show();
  };
  const stop = draft.listen((what) => (holder.isConnected ? what === "state" && look() : stop()));
  look();
  return h("section", {}, inline ? null : pasteBox(draft, file, draw), holder);
}

/* A list that comes from a spreadsheet: it may have columns of its own, the program reads them by their names. */
function pasteBox(draft, file, draw) {
  const field = h("textarea", {
    rows: 4,
    id: "paste-rows",
    "aria-label": "Rows from a spreadsheet",
    placeholder: "Paste rows here, or drop a file",
  });
  const take = async (text) => {
    if (!text.trim()) return;
    const answer = await ask(
      "What becomes of the list that is there?",
      h("p", {}, "Added rows must have the columns in the same order."),
      [
        ["add", "Add these rows"],
        ["replace", "Put it in place of the list"],
        ["", "Leave it", "quiet"],
      ],
    );
    if (answer === "replace") draft.set(file, text.endsWith("\n") ? text : `${text}\n`);
    if (answer === "add") draft.set(file, added(draft.text(file), text));
    if (answer) field.value = "";
    draw();
  };
  const box = h(
    "details",
    { class: "paste" },
    h("summary", {}, "Paste rows from a spreadsheet, or drop a file"),
    field,
    h(
      "div",
      { class: "row" },
      button("Read it", () => take(field.value)),
    ),
  );
  box.addEventListener("dragover", (event) => event.preventDefault());
  box.addEventListener("drop", async (event) => {
    const dropped = event.dataTransfer.files[0];
    if (!dropped) return;
    event.preventDefault();
    const bytes = new Uint8Array(await dropped.arrayBuffer());
    try {
      take(isSheet(dropped.name) ? await sheetText(dropped.name, bytes) : decoded(bytes));
    } catch (refused) {
      say(refused.message);
    }
  });
  return box;
}

/* The rows that a person sees: a sheet may end in empty ones. */
const sheetText = async (fileName, bytes) =>
  (await post("/api/sheet", { name: fileName, base64: base64(bytes) })).text.replace(/(\t*\n)+$/, "\n");

function added(list, text) {
  const more = readTable(text, knownColumn);
  const first =
    more.heading && more.heading.cells.filter((cell) => knownColumn(cell.text)).length >= 2 ? [] : [more.heading];
  return [...first, ...more.rows].filter(Boolean).reduce(
    (sum, row) =>
      addRow(
        readTable(sum, knownColumn),
        row.cells.map((cell) => cell.text),
      ),
    list,
  );
}
