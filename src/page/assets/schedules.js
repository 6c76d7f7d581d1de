/* Finishing schedules: the list of steps that a surface gets, each step a row. */
import { h, fill, button, choice, labelled } from "/assets/dom.js";
import { pointerOf, renameKey } from "/assets/json_text.js";
import { formField } from "/assets/fields.js";
import { TOOLS } from "/assets/words.js";

const KINDS = [
  ["sand", "sand"],
  ["coat", "coat"],
  ["scuff", "scuff"],
  ["raise", "raise the grain"],
  ["mask", "mask"],
  ["polish", "polish"],
  ["rub", "rub out"],
  ["wait", "wait"],
  ["task", "task"],
];
const FRESH = {
  sand: { sand: 180 },
  coat: { coat: "hardwax-oil" },
  scuff: { scuff: 320 },
  raise: { raise: true },
  mask: { mask: true, takes: "20 min" },
  polish: { polish: true },
  rub: { rub: "steel wool 0000" },
  wait: { wait: "24 h" },
  task: { task: "fit the handles", takes: "30 min" },
};
/* The keys of each kind of step. */
const TAKES = { key: "/takes", label: "takes", kind: "text" };
const FIELDS = {
  sand: [{ key: "/sand", label: "grit", kind: "number" }],
  scuff: [{ key: "/scuff", label: "grit", kind: "number" }],
  coat: [
    { key: "/coat", label: "finish", kind: "text", list: "finishes", wide: true },
    { key: "/coats", label: "coats", kind: "number", usual: "usual" },
    { key: "/by", label: "tool", kind: "choice", options: TOOLS, empty: "usual" },
    { key: "/thin", label: "thin", kind: "text", usual: "not" },
  ],
  raise: [{ key: "/dry", label: "to dry", kind: "text", usual: "2 h" }],
  mask: [{ key: "/mask", label: "what", kind: "text" }, TAKES],
  polish: [],
  rub: [{ key: "/rub", label: "with", kind: "text" }],
  wait: [{ key: "/wait", label: "for", kind: "text" }],
  task: [{ key: "/task", label: "what", kind: "text", wide: true }, TAKES],
};

export function schedulesSection(draft, mistakes, job) {
  const node = h("section", {});
  const draw = (focus) => {
    mistakes.clear();
    const schedules = draft.value({ file: job, pointer: "/schedules" }) || {};
    fill(
      node,
      h(
        "p",
        { class: "hint" },
        "A finishing schedule is the list of steps that a surface gets, in order. Parts name it.",
      ),
      Object.entries(schedules).map(([name, steps]) =>
        oneSchedule({ draft, mistakes, job, draw }, name, Array.isArray(steps) ? steps : []),
      ),
      h(
        "div",
        { class: "row" },
        button("Add a schedule", () => addSchedule(draft, job, schedules, draw)),
      ),
    );
    draft.tell("state");
    if (focus) node.querySelector(focus)?.focus();
  };
  draw();
  return node;
}

function addSchedule(draft, job, schedules, draw) {
  let number = 1;
  while (schedules[`schedule ${number}`]) number++;
  draft.put({ file: job, pointer: pointerOf("schedules", `schedule ${number}`) }, [FRESH.sand, FRESH.coat]);
  draw();
}

function oneSchedule(at, name, steps) {
  const { draft, mistakes, job, draw } = at;
  const pointer = pointerOf("schedules", name);
  const title = labelled("Name", h("input", { type: "text", value: name }));
  title.field.addEventListener("change", () => {
    draft.set(job, renameKey(draft.text(job), pointer, title.field.value.trim() || name));
    draw();
  });
  mistakes.field(job, pointer, (text) => title.mistake(text));
  const place = { file: job, pointer };
  return h(
    "fieldset",
    { class: "schedule" },
    h("legend", {}, `Schedule ${name}`),
    title,
    h(
      "ol",
      { class: "steps" },
      steps.map((step, i) => stepRow(at, place, steps, step, i)),
    ),
    h(
      "div",
      { class: "row" },
      button(
        "Add a step",
        () => (draft.put({ file: job, pointer: `${pointer}/${steps.length}` }, FRESH.sand), draw()),
        { "aria-label": `Add a step to ${name}` },
      ),
      button("Remove the schedule", () => (draft.put(place, undefined), draw()), {
        class: "quiet",
        "aria-label": `Remove the schedule ${name}`,
      }),
    ),
  );
}

function stepRow(at, place, steps, step, index) {
  const { draft, mistakes, draw } = at;
  const kind = Object.keys(step || {}).find((key) => key in FRESH) || "task";
  const here = { file: place.file, pointer: `${place.pointer}/${index}` };
  const kinds = labelled("step", choice(KINDS, kind));
  kinds.field.setAttribute("aria-label", `Kind of step ${index + 1}`);
  kinds.field.addEventListener("change", () => (draft.put(here, FRESH[kinds.field.value]), draw()));
  mistakes.field(here.file, here.pointer, (text) => kinds.mistake(text));
  const move = (to) => {
    const order = [...steps];
    order.splice(to, 0, ...order.splice(index, 1));
    draft.put(place, order);
    draw();
  };
  const tool = (text, word, act, off) =>
    button(text, act, { class: "small", "aria-label": `${word} step ${index + 1}`, disabled: off });
  return h(
    "li",
    { class: "step" },
    kinds,
    FIELDS[kind].map((spec) => formField(draft, mistakes, here, spec)),
    h(
      "div",
      { class: "tools" },
      tool("Up", "Move up", () => move(index - 1), index === 0),
      tool("Down", "Move down", () => move(index + 1), index === steps.length - 1),
      tool("Remove", "Remove", () => (draft.put(here, undefined), draw())),
    ),
  );
}
