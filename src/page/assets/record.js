/* What is asked at the bench when a batch did not go as planned. `at`: {batch, id, file, today, record(what, told), back()}. */
import { h, button, labelled, choice } from "/assets/dom.js";
import { get, name } from "/assets/api.js";
import { coatOf, when, sideOf } from "/assets/words.js";

const nothing = (value) => value.trim() || undefined;
const text = (attributes) => h("input", { type: "text", autocomplete: "off", ...attributes });

function asking(at, title, fields, send, action) {
  const form = h(
    "form",
    { "aria-label": title },
    h("h2", { class: "small" }, title),
    h("div", { class: "form" }, fields),
    h("p", { class: "refused bad", role: "alert" }),
    h(
      "div",
      { class: "row" },
      h("button", { type: "submit", class: "strong big" }, action),
      button("Back", at.back, { class: "big quiet" }),
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    send();
  });
  return form;
}

const stepWords = (step) => [step.words, step.piece, sideOf(step.id)].filter(Boolean).join(", ");

export function doneForm(at) {
  const { batch } = at;
  const what = labelled(
    "What was done",
    choice(
      [
        [at.id, "the whole batch"],
        ...(batch.steps.length > 1
          ? batch.steps.map((s) => [s.id, stepWords(s)])
          : batch.steps.slice(0, 1).map((s) => [s.id, `only some parts of ${s.piece || "it"}`])),
      ],
      at.id,
    ),
  );
  const ended = labelled("Ended at", text({ inputmode: "text", placeholder: "now" }), "14:30, or yesterday 14:30");
  const used = labelled("Used so much", text({ placeholder: "240 ml" }));
  const parts = labelled(
    "Parts done, of these",
    text({ inputmode: "numeric", placeholder: "all" }),
    "the others stay to be done",
  );
  const person = labelled(
    "Who",
    text({ value: batch.person && !/^person \d+$/.test(batch.person) ? batch.person : "" }),
  );
  const note = labelled("Note", text());
  const step = () => (what.field.value === at.id && parts.field.value.trim() ? batch.steps[0].id : what.field.value);
  return asking(
    at,
    "Done, but",
    [what, ended, used, parts, person, note],
    () =>
      at.record(
        {
          kind: "done",
          what: step(),
          at: nothing(ended.field.value),
          used: nothing(used.field.value),
          parts: Number(parts.field.value) || undefined,
          person: nothing(person.field.value),
          note: nothing(note.field.value),
        },
        "Recorded.",
      ),
    "Record it",
  );
}

/* The coats that the log has as done, the last first. */
export function againForm(at) {
  const what = labelled("Which coat", choice([["", "reading the log"]], ""));
  const because = labelled("Because", text({ placeholder: "it ran" }));
  const sand = labelled(
    "Sand it before with",
    text({ inputmode: "numeric", value: "320" }),
    "grit; empty for no sanding",
  );
  coatsDone(at)
    .then((coats) =>
      what.field.replaceChildren(
        ...(coats.length ? coats : [["", "no coat is recorded yet"]]).map(([value, label]) =>
          h("option", { value }, label),
        ),
      ),
    )
    .catch((refused) => what.mistake(refused.message));
  return asking(
    at,
    "Again",
    [what, because, sand],
    () => {
      if (!what.field.value) return what.mistake("Record the coat as done first.");
      at.record(
        {
          kind: "again",
          what: what.field.value,
          because: nothing(because.field.value),
          sand: Number(sand.field.value) || undefined,
        },
        "It is planned once more.",
      );
    },
    "Apply it again",
  );
}

async function coatsDone(at) {
  const log = await get(`/api/log/${name(at.file)}`);
  const entries = Array.isArray(log) ? log : log.entries || log.log || [];
  const done = entries.filter((entry) => /\/apply$/.test(entry.step || "")).reverse();
  return done.map((entry) => [entry.step, `${coatOf(entry.step)}${entry.done ? `, ${when(entry.done)}` : ""}`]);
}

export function moreForm(at) {
  const air = labelled("Air, measured now", text({ placeholder: "12 C 80 %" }), "temperature and humidity");
  return asking(
    at,
    "More",
    [
      air,
      h(
        "div",
        { class: "row" },
        at.batch.steps.map((step) =>
          button(`Leave out: ${stepWords(step)}`, () => at.record({ kind: "skip", what: step.id }, "Left out.")),
        ),
        button("Take back the last entry", () => at.record({ kind: "undo" }, "Taken back.")),
      ),
    ],
    () =>
      air.field.value.trim()
        ? at.record({ kind: "air", what: air.field.value.trim() }, "The air is recorded.")
        : air.mistake("Expected such as 12 C 80 %."),
    "Record the air",
  );
}
