/* A new job from a cut list: pasted, dropped or chosen; how it is understood is shown at once, with what it comes to. */
import { h, fill, labelled, choice, say, soon, suggestions } from "/assets/dom.js";
import { post, once, get, name, setClock, clock, decoded, isSheet, base64 } from "/assets/api.js";
import { Results, warningsOf } from "/assets/results.js";
import { mistakeWords } from "/assets/words.js";

const WAIT_MS = 300,
  WEEKS_USUAL = 4,
  WEEK_MS = 7 * 24 * 3600 * 1000,
  KINDS = ["table", "cabinet", "doors", "shelf", "chair", "box"];

const text = (label, hint, more) =>
  labelled(label, h("input", { type: "text", autocomplete: "off", spellcheck: "false", ...more }), hint);

class NewJob {
  constructor(main, names, start) {
    Object.assign(this, { main, names, start, list: null, touched: new Set() });
    this.fields = this.makeFields();
    this.common = this.makeCommon();
    this.draft = { state: { errors: [], warnings: [] } };
    this.results = new Results(this.draft, names, false);
    this.understood = h("div", { "aria-live": "polite" });
    this.save = h("button", { type: "submit", class: "strong big", disabled: true }, "Save the job");
    this.soon = soon(() => this.look(), WAIT_MS);
    this.draw();
  }

  makeFields() {
    const deliver = new Date(clock() + WEEKS_USUAL * WEEK_MS).toISOString().slice(0, 10);
    return {
      name: text("Name of the job", null, { placeholder: "the list's name" }),
      deliver: text("Delivery", "year-month-day", { value: deliver }),
      outside: text("Finish of what is seen", null, { list: "finishes", value: "hardwax-oil" }),
      inside: text("Another finish inside", "empty: the same everywhere", { list: "finishes" }),
      flat: text("Pieces that lie flat", "commas between; they are coated one side at a time"),
      inner: text("Pieces that get the finish of the inside", "commas between"),
      people: text("People", null, { inputmode: "numeric", value: "1" }),
      hours: text("Hours, Monday to Friday", null, { value: "08:00-12:00 13:00-17:00" }),
      units: text("Numbers without a unit are in", "mm, cm, m, in or ft"),
      currency: text("Currency", "three letters; empty: no prices"),
    };
  }

  /* Of a common piece the program knows the parts. */
  makeCommon() {
    const common = {
      kind: labelled("Kind of piece", choice([["", "none: there is a list"], ...KINDS], "")),
      sizes: text("Its sizes", "length x width x height", { value: "1800 x 900 x 750" }),
      wood: text("Its wood", null, { value: "oak", list: "woods" }),
    };
    for (const box of Object.values(common)) box.field.addEventListener("input", () => this.soon());
    return common;
  }

  draw() {
    const area = h("textarea", {
      rows: 9,
      spellcheck: "false",
      placeholder: "part\tqty\twood\tlength\twidth\tthickness",
    });
    const paste = labelled(
      "Cut list",
      area,
      "Copy it in the spreadsheet, headings and all, and paste it here. Or drop a file.",
    );
    const file = labelled("or a file", h("input", { type: "file", accept: ".csv,.tsv,.txt,.xlsx,.ods,text/csv" }));
    area.addEventListener("input", () => this.take({ name: "list.csv", text: area.value }));
    file.field.addEventListener("change", () => file.field.files[0] && this.takeFile(file.field.files[0], area));
    const form = h(
      "form",
      {},
      h("div", { class: "drop" }, paste, file),
      h(
        "details",
        {},
        h("summary", {}, "No list yet? Begin with a common piece"),
        h("div", { class: "form" }, Object.values(this.common)),
      ),
      this.understood,
      h("div", { class: "form" }, Object.values(this.fields)),
      h("p", { class: "refused bad", role: "alert" }),
      this.save,
    );
    for (const [key, box] of Object.entries(this.fields))
      box.field.addEventListener("input", () => (this.touched.add(key), this.soon()));
    form.addEventListener("submit", (event) => (event.preventDefault(), this.write(form.querySelector(".refused"))));
    form.addEventListener("dragover", (event) => event.preventDefault());
    form.addEventListener(
      "drop",
      (event) =>
        event.dataTransfer.files[0] && (event.preventDefault(), this.takeFile(event.dataTransfer.files[0], area)),
    );
    fill(
      this.main,
      h("h1", {}, "New job from a cut list"),
      h("div", { class: "beside" }, h("div", { class: "forms" }, form), this.results.node),
    );
    fill(this.results.verdict, h("p", {}, "What it comes to stands here as soon as there is a list."));
  }

  /* The bytes go as they are, whatever they are encoded in: the program knows more of it than a browser. */
  async takeFile(file, area) {
    const bytes = new Uint8Array(await file.arrayBuffer());
    area.value = isSheet(file.name) ? "" : decoded(bytes);
    this.take({ name: file.name, base64: base64(bytes) });
  }
  take(list) {
    this.list = list;
    this.soon();
  }

  want() {
    const value = (key) => this.fields[key].field.value.trim() || undefined;
    const mine = (key) => (this.touched.has(key) ? this.fields[key].field.value.trim() : undefined);
    const common = this.commonPiece();
    const list = common ? { name: `${common.kind}.csv` } : { ...this.list };
    if (value("name") && (common || list.name === "list.csv"))
      list.name = `${value("name")
        .toLowerCase()
        .replace(/[^\p{L}\p{N}]+/gu, "-")
        .replace(/^-|-$/g, "")}.csv`;
    return {
      ...common,
      list,
      name: value("name"),
      start: this.start,
      deliver: value("deliver"),
      outside: value("outside"),
      inside: value("inside"),
      flat: mine("flat"),
      inner: mine("inner"),
      people: Number(value("people")) || 1,
      hours: value("hours"),
      units: value("units"),
      currency: value("currency"),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    };
  }

  hasList = () => Boolean(this.list?.text?.trim() || this.list?.base64);
  /* A list that is there comes first. */
  commonPiece() {
    const { kind, sizes, wood } = Object.fromEntries(Object.entries(this.common).map(([key, box]) => [key, box.field.value]));
    return kind && !this.hasList() ? { kind, sizes, wood } : null;
  }

  async look() {
    if (!this.hasList() && !this.commonPiece()) return;
    this.asked?.abort();
    this.asked = new AbortController();
    try {
      this.show(await post("/api/new", { ...this.want(), yes_save: false }, this.asked.signal));
    } catch (refused) {
      if (refused.name !== "AbortError") fill(this.understood, h("p", { class: "bad" }, refused.message));
    }
  }

  show(answer) {
    Object.assign(this.draft.state, answer);
    const rest = this.place(answer.errors || []);
    fill(
      this.understood,
      rest.length
        ? h(
            "ul",
            { class: "wrong" },
            rest.map((e) => h("li", {}, `${e.line ? `Line ${e.line}: ` : ""}${mistakeWords(e)}`)),
          )
        : this.read(answer),
    );
    for (const key of ["flat", "inner"])
      if (!this.touched.has(key) && answer.made?.[key] !== undefined)
        this.fields[key].field.value = answer.made[key] || "";
    if (!this.touched.has("units") && answer.made?.units_meant) this.fields.units.field.value = answer.made.units_meant;
    this.results.show([], () => {});
    this.save.disabled = answer.errors.length > 0;
  }
  read(answer) {
    const surfaces = answer.area?.surfaces || [];
    const parts = new Map(surfaces.map((s) => [`${s.piece}/${s.part}`, s.qty]));
    const count = [...parts.values()].reduce((sum, n) => sum + n, 0);
    return h(
      "div",
      { class: "card read" },
      h(
        "p",
        { class: "good" },
        `Read: ${parts.size} kinds of parts, ${count} parts, ${answer.area?.finished_m2.toFixed(2) || 0} m² to finish.`,
      ),
      warningsOf(answer.warnings),
    );
  }

  /* Mistakes of what was answered stand beside the answer. */
  place(errors) {
    const boxes = { ...this.fields, ...this.common };
    for (const box of Object.values(boxes)) box.mistake("");
    return errors.filter((error) => {
      const key = this.answerOf(error, boxes);
      boxes[key]?.mistake(mistakeWords(error));
      return !key;
    });
  }
  /* A mistake in a file that was made of the answers names its place there; one in an answer itself repeats what was typed. */
  answerOf(error, boxes) {
    const key = (error.pointer || "").split("/")[1];
    if (!error.file) {
      const said = ([, box]) => box.field.value.trim() && error.found?.startsWith(`"${box.field.value.trim()}"`);
      return Object.entries(boxes).find(said)?.[0];
    }
    return error.file === this.list?.name ? null : ["deliver", "units", "currency", "people", "hours"].find((k) => k === key);
  }

  async write(refusedAt) {
    fill(refusedAt);
    try {
      const answer = await post("/api/new", { ...this.want(), yes_save: true });
      this.show(answer);
      if (answer.errors.length || !answer.made) return;
      say("The job is saved.");
      location.hash = `#/plan/${name(answer.made.job_file)}`;
    } catch (refused) {
      fill(refusedAt, refused.message);
    }
  }
}

export async function newScreen(main) {
  const [finishes, woods, folder] = await Promise.all([once("/api/finishes"), once("/api/woods"), get("/api/folder")]);
  setClock(folder.now);
  suggestions(
    "finishes",
    finishes.finishes.map((f) => [f.finish, f.name]),
  );
  suggestions(
    "woods",
    woods.woods.map((w) => w.wood),
  );
  new NewJob(main, new Map(finishes.finishes.map((f) => [f.finish, f.name])), folder.now.slice(0, 10));
  return { changed: () => {} };
}
