/* Fields of a form that stand for a value in a JSON text, and mistakes beside them. */
import { h, labelled, choice } from "/assets/dom.js";
import { mistakeWords } from "/assets/words.js";

/* Knows every field by its file and pointer (or, in a table, by its cell) and shows each mistake beside one of them. */
export class Mistakes {
  constructor(draft) {
    this.draft = draft;
    this.fields = [];
    this.finders = [];
  }
  /* `show(text)` puts it beside the field, an empty text takes it away. */
  field(file, pointer, show) {
    this.fields.push({ file, pointer, show });
  }
  /* Tables find the cell of a mistake themselves: find(error) gives a function that shows a text, or null. */
  table(file, find) {
    this.finders.push({ file, find });
  }
  clear() {
    this.fields = [];
    this.finders = [];
  }
  /* The mistakes that have no field on this screen. */
  show(errors) {
    for (const field of this.fields) field.show("");
    for (const finder of this.finders) finder.find(null);
    const texts = new Map(),
      rest = [];
    for (const error of errors) {
      const show = this.place(error);
      if (show) texts.set(show, [texts.get(show), mistakeWords(error)].filter(Boolean).join(" "));
      else rest.push(error);
    }
    for (const [show, text] of texts) show(text);
    return rest;
  }
  place(error) {
    for (const finder of this.finders) {
      const show = same(finder.file, error.file) && finder.find(error);
      if (show) return show;
    }
    const fits = this.fields
      .toReversed()
      .filter(
        (f) =>
          same(f.file, error.file) &&
          (error.pointer === f.pointer || (f.pointer && error.pointer?.startsWith(`${f.pointer}/`))),
      );
    fits.sort((a, b) => b.pointer.length - a.pointer.length);
    return fits[0]?.show || null;
  }
}
/* The program names files as they were given; the folder of the job may stand before. */
const same = (file, named) => Boolean(named) && (named === file || named.endsWith(`/${file}`));

const whole = /^-?(0|[1-9]\d*)(\.\d+)?$/;
/* What was typed: a number where the key takes one, a list where it takes one, else the text; undefined for nothing. */
export function typed(kind, text) {
  const plain = text.trim();
  if (plain === "") return undefined;
  if (kind === "number") return whole.test(plain) ? Number(plain) : plain;
  if (kind === "json" && /^[[{]/.test(plain)) return parsed(plain);
  if (kind === "list")
    return plain
      .split(",")
      .map((item) => item.trim())
      .filter(Boolean);
  return text;
}
function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
export function shown(kind, value) {
  if (value === undefined || value === null) return "";
  if (Array.isArray(value) && kind === "list") return value.join(", ");
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}

/* spec: {key: pointer below the base, label, kind: text | number | list | choice | yes, options, hint, list}. */
export function formField(draft, mistakes, base, spec) {
  const place = { file: base.file, pointer: base.pointer + spec.key };
  const value = draft.value(place);
  const input = makeInput(spec, value);
  input.addEventListener(spec.kind === "choice" || spec.kind === "yes" ? "change" : "input", () => {
    if (spec.kind === "yes") draft.put(place, input.checked ? true : undefined);
    else draft.put(place, typed(spec.kind, input.value));
  });
  const box = labelled(spec.label, input, spec.hint);
  if (spec.kind === "yes") box.classList.add("check");
  box.classList.toggle("wide", Boolean(spec.wide));
  mistakes.field(place.file, place.pointer, (text) => box.mistake(text));
  return box;
}

function makeInput(spec, value) {
  if (spec.kind === "choice") return choice([["", spec.empty || "as usual"], ...spec.options], shown("text", value));
  if (spec.kind === "yes") return h("input", { type: "checkbox", checked: value === true });
  return h("input", {
    type: "text",
    list: spec.list,
    inputmode: spec.kind === "number" ? "decimal" : null,
    autocomplete: "off",
    spellcheck: "false",
    placeholder: spec.usual,
    value: shown(spec.kind, value),
  });
}

export const form = (draft, mistakes, base, specs) =>
  h(
    "div",
    { class: "form" },
    specs.map((spec) => formField(draft, mistakes, base, spec)),
  );
