/* The screen on which a job is edited: one tab of forms, and beside it what it comes to. */
import { h, fill, button, ask, say, suggestions } from "/assets/dom.js";
import { once, name } from "/assets/api.js";
import { Draft } from "/assets/draft.js";
import { Mistakes } from "/assets/fields.js";
import { Results } from "/assets/results.js";
import { schedulesSection } from "/assets/schedules.js";
import { partsSection } from "/assets/parts.js";
import { jobSection, piecesSection, shopSection, finishesSection } from "/assets/sections.js";
import { textSection } from "/assets/rawtext.js";

const TABS = [
  ["parts", "Parts"],
  ["pieces", "Pieces"],
  ["schedules", "Schedules"],
  ["job", "Job"],
  ["shop", "Shop"],
  ["finishes", "Finishes and prices"],
  ["text", "Text"],
];

/* One draft for each job, so that what is typed outlives a look at another page. */
const drafts = new Map();
export const unsaved = () => [...drafts.values()].some((draft) => draft.dirty);
async function draftOf(file) {
  const there = drafts.get(file);
  if (there?.dirty) return there;
  const draft = await Draft.read(file);
  drafts.set(file, draft);
  return draft;
}

export async function jobScreen(main, file, tab = "parts", more) {
  const [draft, finishes, woods] = await Promise.all([draftOf(file), once("/api/finishes"), once("/api/woods")]);
  const job = draft.of("job") || file;
  const mistakes = new Mistakes(draft);
  const names = new Map(finishes.finishes.map((f) => [f.finish, f.name]));
  suggestions(
    "finishes",
    finishes.finishes.map((f) => [f.finish, f.name]),
  );
  suggestions(
    "woods",
    woods.woods.map((w) => w.wood),
  );
  const us = ["in", "ft"].includes(draft.value({ file: job, pointer: "/units" }));
  const results = new Results(draft, names, us);
  const bar = h("div", { class: "savebar", role: "region", "aria-label": "Saving" });
  fill(
    main,
    heading(draft, job, file),
    tabs(file, tab),
    h("div", { class: "beside" }, h("div", { class: "forms" }), results.node),
    bar,
  );
  const show = () => {
    suggestions("schedules", [...Object.keys(draft.value({ file: job, pointer: "/schedules" }) || {}), "-"]);
    results.show(
      mistakes.show(draft.state.errors),
      (error) => (location.hash = `#/job/${name(file)}/${tabOf(draft, job, error)}`),
    );
  };
  const stop = draft.listen((what, more_) => {
    if (what === "state" || what === "read") show();
    if (what === "trying") results.node.setAttribute("aria-busy", "true");
    else results.node.removeAttribute("aria-busy");
    saveBar(bar, draft, file);
    if (what === "read" && !draft.dirty) drawTab(main.querySelector(".forms"), draft, mistakes, job, tab, more_);
  });
  drawTab(main.querySelector(".forms"), draft, mistakes, job, tab, more);
  show();
  saveBar(bar, draft, file);
  return { stop, changed: (what) => (!what || what === file) && refresh(draft) };
}

function heading(draft, job, file) {
  return h(
    "div",
    { class: "heading" },
    h("h1", {}, draft.value({ file: job, pointer: "/job" }) || file),
    h(
      "p",
      { class: "row" },
      h("a", { class: "button", href: `#/plan/${name(file)}` }, "Plan"),
      h("a", { class: "button", href: `#/bench/${name(file)}` }, "At the bench"),
    ),
  );
}

const tabs = (file, tab) =>
  h(
    "nav",
    { class: "tabs", "aria-label": "Parts of the job" },
    TABS.map(([key, text]) =>
      h("a", { href: `#/job/${name(file)}/${key}`, "aria-current": key === tab ? "page" : null }, text),
    ),
  );

function drawTab(node, draft, mistakes, job, tab, more) {
  mistakes.clear();
  const sections = {
    parts: partsSection,
    pieces: piecesSection,
    schedules: schedulesSection,
    job: jobSection,
    shop: shopSection,
    finishes: finishesSection,
    text: textSection,
  };
  fill(node, h("h2", { class: "hidden" }, TABS.find(([key]) => key === tab)?.[1] || "Parts"));
  const section =
    tab === "text" || tab === "finishes"
      ? sections[tab](draft, mistakes, more)
      : (sections[tab] || partsSection)(draft, mistakes, job, suggestions);
  node.append(section);
}

/* The tab on which a mistake can be mended. */
function tabOf(draft, job, error) {
  const kind = draft.texts[error.file]?.kind;
  if (kind === "parts") return "parts";
  if (kind === "shop") return "shop";
  if (["prices", "stock", "finish"].includes(kind)) return "finishes";
  const first = (error.pointer || "").split("/")[1];
  const there = { schedules: "schedules", pieces: "pieces", tasks: "pieces", shop: "shop", parts: "parts" }[first];
  return there || (first ? "job" : "text");
}

function saveBar(bar, draft, file) {
  const changed = draft.changed();
  bar.classList.toggle("open", changed.length > 0);
  if (bar.dataset.for === changed.join()) return;
  bar.dataset.for = changed.join();
  fill(
    bar,
    changed.length
      ? [
          h("p", {}, `Not saved: ${changed.join(", ")}`),
          h(
            "div",
            { class: "row" },
            button("Save", () => save(draft), { class: "strong" }),
            button("Undo changes", () => undo(draft, file), { class: "quiet" }),
          ),
        ]
      : null,
  );
}

async function undo(draft, file) {
  const answer = await ask(
    "Undo what is not saved?",
    h("p", {}, "Everything that was changed since it was saved last is lost."),
    [
      ["undo", "Undo changes"],
      ["", "Go on editing", "quiet"],
    ],
  );
  if (answer !== "undo") return;
  drafts.delete(file);
  dispatchEvent(new HashChangeEvent("hashchange"));
}

async function save(draft) {
  try {
    const theirs = await draft.save();
    if (!theirs) return say("Saved.");
    await settle(draft, theirs);
  } catch (refused) {
    say(refused.message);
  }
}

/* Somebody saved the same file meanwhile: both texts side by side, and a question. */
async function settle(draft, theirs) {
  const files = Object.keys(theirs);
  const body = files.map((key) => [
    h("h3", {}, key),
    h(
      "div",
      { class: "both" },
      version("In the folder now", theirs[key].text, draft.text(key)),
      version("Yours", draft.text(key), theirs[key].text),
    ),
  ]);
  const answer = await ask("Changed by somebody else meanwhile", body, [
    ["mine", "Save mine over it"],
    ["theirs", "Take theirs"],
    ["", "Go on editing", "quiet"],
  ]);
  if (!answer) return;
  for (const key of files) {
    draft.texts[key].version = theirs[key].version;
    if (answer === "theirs") Object.assign(draft.texts[key], { base: theirs[key].text, text: theirs[key].text });
  }
  if (answer === "mine") return save(draft);
  await draft.refresh();
  draft.tell("read");
  say("Theirs was taken.");
}

/* The lines that differ are marked. */
function version(title, text, other) {
  const lines = new Set(other.split("\n"));
  return h(
    "div",
    {},
    h("h4", {}, title),
    h(
      "pre",
      { tabindex: "0", "aria-label": title },
      text.split("\n").map((line) => (lines.has(line) ? `${line}\n` : h("mark", {}, `${line}\n`))),
    ),
  );
}

async function refresh(draft) {
  try {
    const both = await draft.refresh();
    if (both.length) say(`${both.join(", ")} was changed by somebody else. Saving will show both.`);
  } catch (refused) {
    say(refused.message);
  }
}
