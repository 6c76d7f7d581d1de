/* The forms of a job, apart from its parts and schedules: the job itself, its pieces and tasks, the shop, finishes and prices. */
import { h, fill, button, labelled } from "/assets/dom.js";
import { form } from "/assets/fields.js";
import { Table, CsvSource, JsonSource } from "/assets/table.js";
import { STATES, TOOLS } from "/assets/words.js";

const DAYS = [
  ["mon", "Monday"],
  ["tue", "Tuesday"],
  ["wed", "Wednesday"],
  ["thu", "Thursday"],
  ["fri", "Friday"],
  ["sat", "Saturday"],
  ["sun", "Sunday"],
];

const JOB = [
  { key: "/job", label: "Name", kind: "text", wide: true },
  { key: "/customer", label: "Customer", kind: "text", wide: true },
  { key: "/start", label: "Work may begin", kind: "text", hint: "2027-03-01 08:00" },
  { key: "/deliver", label: "Delivery", kind: "text", hint: "2027-03-19 17:00" },
  {
    key: "/deliver-at",
    label: "By delivery it is",
    kind: "choice",
    options: Object.entries(STATES),
    empty: "safe to wrap, as usual",
  },
  {
    key: "/to-spare",
    label: "Time to spare",
    kind: "text",
    hint: "between ready and delivery; whole days are days on which the shop opens",
    usual: "1 d",
  },
  { key: "/all", label: "Schedule of every surface", kind: "text", list: "schedules" },
  { key: "/inside", label: "Schedule of insides", kind: "text", list: "schedules" },
  {
    key: "/units",
    label: "Units of bare numbers",
    kind: "choice",
    options: ["mm", "cm", "m", "in", "ft"],
    empty: "mm, as usual",
  },
  { key: "/reserve", label: "Bought beyond the need", kind: "text", usual: "10 %" },
  { key: "/zone", label: "Time zone", kind: "text", hint: "Europe/London" },
  { key: "/currency", label: "Currency", kind: "text", hint: "three letters, such as GBP" },
  { key: "/parts", label: "File of the part list", kind: "text", file: true },
  { key: "/shop", label: "File of the shop", kind: "text", file: true },
  { key: "/prices", label: "File of prices", kind: "text" },
  { key: "/stock", label: "File of stock", kind: "text" },
  { key: "/finishes", label: "Folder of own finishes", kind: "text" },
  {
    key: "/strict",
    label: "A part list that is not written as the reference has it is a mistake",
    kind: "yes",
    wide: true,
  },
];

export function jobSection(draft, mistakes, job) {
  const base = { file: job, pointer: "" };
  const specs = JOB.filter((spec) => !spec.file || typeof draft.value({ file: job, pointer: spec.key }) !== "object");
  return h("section", {}, form(draft, mistakes, base, specs));
}

const PIECE = {
  piece: "piece",
  laid: "position",
  after: "waits for",
  ready: "ready from",
  "coats-a-day": "coats a day",
  "dry-by": "dry by",
  rack: "area on the rack",
};
const PIECE_KINDS = {
  after: "list",
  use: "list",
  lots: "number",
  lift: "number",
  "coats-a-day": "number",
  patch: "json",
};
const PIECE_LISTS = { piece: "pieces", laid: "positions", all: "schedules", use: "uses", after: "pieces" };
const TASK = { task: "task", after: "waits for", before: "before" };

export function piecesSection(draft, mistakes, job, suggest) {
  const node = h("section", {});
  suggest("positions", ["flat", "standing", "hung"]);
  suggest("uses", ["water", "alcohol", "heat", "food", "outdoors", "child", "wear"]);
  const draw = () => {
    mistakes.clear();
    const pieces = new JsonSource(
      draft,
      { file: job, pointer: "/pieces" },
      ["piece", "laid", "after", "use"],
      PIECE_KINDS,
    );
    const tasks = new JsonSource(draft, { file: job, pointer: "/tasks" }, ["task", "takes", "after", "before"], {
      after: "list",
      before: "list",
    });
    const known = new Set(pieces.items.map((item) => item?.piece));
    const named = [...new Set((draft.state.area?.surfaces || []).map((s) => s.piece))];
    const missing = named.filter((name) => name && !known.has(name));
    suggest("pieces", [...named, ...tasks.items.map((t) => t?.task).filter(Boolean)]);
    fill(
      node,
      h("h3", {}, "Pieces"),
      h(
        "p",
        { class: "hint" },
        "A piece that lies flat is coated one side at a time. One that is not listed stands, and can be worked on from the start.",
      ),
      new Table(mistakes, {
        key: "pieces",
        source: pieces,
        caption: "Pieces",
        one: "a piece",
        words: PIECE,
        listOf: (n) => PIECE_LISTS[n],
        columns: ["ready", "rack", "lots", "lift", "flip", "coats-a-day", "dry-by", "patch", "all"],
        fresh: { laid: "flat" },
      }).node,
      notListed(missing, (name) => {
        pieces.add(pieces.read().names.map((n) => ({ piece: name, laid: "flat" })[n] || ""));
        draw();
      }),
      h("h3", {}, "Other work"),
      new Table(mistakes, {
        key: "tasks",
        source: tasks,
        caption: "Tasks",
        one: "a task",
        words: TASK,
        listOf: (n) => (n === "takes" ? null : "pieces"),
        fresh: { task: "fit the handles", takes: "30 min" },
      }).node,
    );
    draft.tell("state");
  };
  draw();
  return node;
}

const NAMED_MOST = 12;
function notListed(names, list) {
  if (!names.length) return null;
  const offer = (name) => button(name, () => list(name), { class: "small", "aria-label": `List ${name}` });
  return h("div", { class: "row" }, h("span", { class: "hint" }, "Not listed:"), names.slice(0, NAMED_MOST).map(offer));
}

const SHOP = [
  { key: "/rack", label: "Rack", kind: "text", hint: "area for wet pieces, such as 4 m2", usual: "no limit" },
  { key: "/spray-places", label: "Spray places", kind: "number", usual: "1" },
  {
    key: "/dust-room",
    label: "Sanding dust",
    kind: "choice",
    options: [
      ["shared", "reaches wet films: one room"],
      ["separate", "stays away: a separate room"],
    ],
    empty: "one room, as usual",
  },
  { key: "/settle", label: "Dust settles in", kind: "text", usual: "30 min" },
  { key: "/rate-per-hour", label: "An hour of work costs", kind: "text", hint: "such as 42.00" },
  { key: "/scale", label: "Smallest step of the scale", kind: "text", usual: "1 g" },
  { key: "/prices", label: "File of prices", kind: "text" },
  { key: "/country", label: "Limits of", kind: "choice", options: ["EU", "UK", "US"], empty: "by the zone" },
  { key: "/closed", label: "Closed days", kind: "list", hint: "2027-04-02, commas between", wide: true },
  { key: "/busy", label: "Calendars that keep the shop busy", kind: "list", wide: true },
];
const BY_TOOL = [
  ["rates", "area an hour"],
  ["set-up", "set-up"],
  ["clean-up", "clean-up"],
  ["handling", "handling"],
  ["rest", "rest"],
  ["losses", "loss"],
  ["transfer", "transfer efficiency"],
];
const WORKS = ["sand", "scuff", "polish", "rub", "wipe", "raise"];

export function shopSection(draft, mistakes, job) {
  const inline = draft.value({ file: job, pointer: "/shop" });
  const file = typeof inline === "object" ? job : draft.of("shop");
  if (!file)
    return h(
      "section",
      {},
      h("p", {}, "This job names no shop: hours and air are assumed."),
      button(
        "Write them into the job",
        () => (
          draft.put({ file: job, pointer: "/shop" }, { people: 1 }),
          dispatchEvent(new HashChangeEvent("hashchange"))
        ),
      ),
    );
  const base = { file, pointer: file === job ? "/shop" : "" };
  const air = new JsonSource(draft, { file, pointer: `${base.pointer}/air` }, ["from", "temperature", "humidity"]);
  return h(
    "section",
    {},
    h("h3", {}, "People and hours"),
    peopleOf(draft, mistakes, base),
    form(
      draft,
      mistakes,
      base,
      DAYS.map(([key, label]) => ({
        key: `/hours/${key}`,
        label,
        kind: "list",
        usual: "closed",
        hint: key === "mon" ? "08:00-12:00, 13:00-17:00" : null,
      })),
    ),
    h("h3", {}, "Air"),
    h("p", { class: "hint" }, "Each line holds until the next."),
    new Table(mistakes, {
      key: "air",
      source: air,
      caption: "Air",
      one: "a time",
      columns: ["on"],
      fresh: { from: "08:00", temperature: "18 C", humidity: "55 %" },
    }).node,
    h("h3", {}, "The room and its tools"),
    form(draft, mistakes, base, SHOP),
    toolsOf(draft, mistakes, base),
  );
}

/* How many they are, or a table of who they are. */
function peopleOf(draft, mistakes, base) {
  const place = { file: base.file, pointer: `${base.pointer}/people` };
  if (!Array.isArray(draft.value(place)))
    return form(draft, mistakes, base, [{ key: "/people", label: "People", kind: "number", usual: "1" }]);
  const kinds = { does: "list", hours: "json", closed: "list", busy: "list" };
  return new Table(mistakes, {
    key: "people",
    source: new JsonSource(draft, place, ["person", "does"], kinds),
    caption: "People",
    one: "a person",
    columns: ["hours", "closed", "busy"],
  }).node;
}

/* What the shop says of each tool and work; one of them is chosen at a time. */
function toolsOf(draft, mistakes, base) {
  const holder = h("div", {});
  const pick = labelled(
    "Tool or work",
    h(
      "select",
      {},
      [...TOOLS, ...WORKS].map((tool) => h("option", { value: tool }, tool)),
    ),
  );
  const draw = () =>
    fill(
      holder,
      form(
        draft,
        mistakes,
        base,
        BY_TOOL.filter(
          ([key]) => TOOLS.includes(pick.field.value) || ["rates", "set-up", "clean-up", "handling"].includes(key),
        ).map(([key, label]) => ({ key: `/${key}/${pick.field.value}`, label, kind: "text", usual: "as usual" })),
      ),
    );
  pick.field.addEventListener("change", draw);
  draw();
  return h("details", {}, h("summary", {}, "Speed and losses by tool"), pick, holder);
}

const FINISH = [
  { key: "/name", label: "Name", kind: "text", wide: true },
  { key: "/short", label: "Short name", kind: "text" },
  { key: "/coverage/first", label: "Coverage, first coat", kind: "text", hint: "such as 12 m2/l" },
  { key: "/coverage/later", label: "Coverage, later coats", kind: "text" },
  { key: "/coverage/tolerance", label: "Tolerance", kind: "text" },
  { key: "/solids", label: "Solids", kind: "text" },
  { key: "/coats/usual", label: "Coats, usually", kind: "number" },
  { key: "/coats/most", label: "Coats, at most", kind: "number" },
  { key: "/coats/a-day", label: "Coats a day", kind: "number" },
  { key: "/pot-life", label: "Pot life", kind: "text" },
  { key: "/by", label: "Tools", kind: "list", wide: true },
  ...["dust-free", "handle", "sand", "wrap", "light-use", "cured", "at"].map((state) => ({
    key: `/times/${state}`,
    label: state === "at" ? "times hold at" : STATES[state],
    kind: "text",
  })),
  { key: "/times/recoat", label: STATES.recoat, kind: "list", hint: "first and last moment, a comma between" },
  { key: "/voc", label: "VOC", kind: "text" },
];

/* Prices and stock are tables, the shop's own finishes forms. */
export function finishesSection(draft, mistakes) {
  const tables = [
    ["prices", "Prices", ["finish", "component", "size", "price"]],
    ["stock", "Stock", ["finish", "component", "amount", "opened", "best-before"]],
  ];
  const parts = tables.flatMap(([kind, title, columns]) =>
    draft
      .all(kind)
      .map((file) => [
        h("h3", {}, `${title}: ${file}`),
        new Table(mistakes, {
          key: kind,
          source: new CsvSource(draft, file, (text) => columns.includes(text.toLowerCase())),
          caption: title,
          columns,
          listOf: (n) => (n === "finish" ? "finishes" : null),
        }).node,
      ]),
  );
  const own = draft
    .all("finish")
    .map((file) =>
      h(
        "details",
        {},
        h("summary", {}, draft.value({ file, pointer: "/name" }) || file),
        h(
          "p",
          { class: "hint" },
          `${file}. The data sheet of your can decides; write under "sources" where a figure comes from (tab Text).`,
        ),
        form(draft, mistakes, { file, pointer: "" }, FINISH),
      ),
    );
  return h(
    "section",
    {},
    parts.length || own.length
      ? null
      : h("p", {}, "This job has no prices, no stock and no finishes of its own. Name their files in the tab Job."),
    parts,
    own.length ? h("h3", {}, "Own finishes") : null,
    own,
  );
}
