/* What the program says of the job as it is typed: will it be ready, areas, litres, price, hours, and what is wrong. */
import { h, fill, button } from "/assets/dom.js";
import { area, volume, hours, mistakeWords } from "/assets/words.js";

export class Results {
  constructor(draft, names, us) {
    Object.assign(this, { draft, names, us });
    this.verdict = h("div", { class: "verdict", "aria-live": "polite", "aria-atomic": "true" });
    this.body = h("div", {});
    this.node = h("aside", { class: "results", "aria-label": "What it comes to" });
    this.node.append(h("h2", { class: "hidden" }, "What it comes to"), this.verdict, this.body);
    this.last = {};
  }

  /* `rest`: the mistakes that have no field on this screen; `open(error)` goes to where one can be mended. */
  show(rest, open) {
    const { state, trouble } = this.draft;
    for (const key of ["area", "buy", "cost", "plan"]) if (state[key]) this.last[key] = state[key];
    const errors = state.errors.length;
    this.body.classList.toggle("stale", errors > 0);
    fill(this.verdict, trouble ? h("p", { class: "bad" }, trouble) : verdictOf(state, errors));
    fill(
      this.body,
      elsewhere(rest, open),
      errors && this.last.area ? h("p", { class: "hint" }, "The figures below are those before the mistake.") : null,
      this.hours(),
      this.areas(),
      this.litres(),
      this.price(),
      warningsOf(state.warnings),
    );
  }

  hours() {
    const { plan, cost } = this.last;
    const minutes = plan?.hands_on_min ?? cost?.total?.minutes;
    return minutes ? figure("Work", hours(minutes)) : null;
  }
  areas() {
    const list = this.last.area;
    if (!list) return null;
    return h(
      "section",
      {},
      h("h3", {}, "Areas"),
      h(
        "dl",
        { class: "figures" },
        list.by_schedule.map((s) => [h("dt", {}, s.schedule), h("dd", {}, area(s.area_m2, this.us))]),
        h("dt", { class: "sum" }, "total to finish"),
        h("dd", { class: "sum" }, area(list.finished_m2, this.us)),
        list.bare_m2 > 0 ? [h("dt", {}, "left bare"), h("dd", {}, area(list.bare_m2, this.us))] : null,
      ),
    );
  }
  litres() {
    const list = this.last.buy;
    if (!list?.finishes?.length) return null;
    return h(
      "section",
      {},
      h("h3", {}, "Needed, and what to buy"),
      h(
        "dl",
        { class: "figures" },
        list.finishes.map((f) => [
          h("dt", {}, this.names.get(f.finish) || f.finish, h("span", { class: "sub" }, packsOf(f, this.us))),
          h("dd", {}, volume(f.need_l.likely * 1000, this.us)),
        ]),
      ),
    );
  }
  price() {
    const cost = this.last.cost;
    if (!cost?.total) return null;
    const money = (text) => (text === null || text === undefined ? "not known" : `${text} ${cost.currency || ""}`);
    return h(
      "section",
      {},
      h("h3", {}, "Price"),
      h(
        "dl",
        { class: "figures" },
        h("dt", {}, "labour"),
        h("dd", {}, money(cost.total.labour)),
        h("dt", {}, "materials"),
        h("dd", {}, money(cost.total.materials)),
        h("dt", { class: "sum" }, "together"),
        h("dd", { class: "sum" }, money(cost.total.sum)),
      ),
    );
  }
}

const figure = (word, text) => h("dl", { class: "figures" }, h("dt", {}, word), h("dd", {}, text));

function packsOf(finish, us) {
  return (
    finish.components
      .flatMap((c) =>
        c.buy.map(
          (pack) =>
            `${pack.count} x ${volume(pack.size_ml, us)}${finish.components.length > 1 ? ` ${c.component}` : ""}`,
        ),
      )
      .join(", ") || "in stock"
  );
}

/* The first thing that anyone wants to know. */
export function verdictOf(state, errors) {
  const plan = state.plan;
  if (errors)
    return h(
      "p",
      { class: "bad" },
      h("strong", {}, errors === 1 ? "1 mistake" : `${errors} mistakes`),
      " to mend first.",
    );
  if (!plan) return h("p", {}, "Nothing is planned yet.");
  return [
    ...readiness(plan),
    plan.mixes_sound === false ? h("p", { class: "bad" }, "A mix cannot be made as asked.") : null,
  ];
}

/* Of a plan, or of a job in the list of the folder. */
export function readiness(plan) {
  if (!plan.planned)
    return [h("p", { class: "bad" }, h("strong", {}, "No plan is possible."), plan.why ? ` ${plan.why}` : null)];
  return [
    h("p", { class: plan.in_time ? "good" : "bad" }, h("strong", {}, `Ready ${plan.ready_text}`)),
    h("p", { class: plan.in_time ? "" : "bad" }, `${plan.in_time ? "To spare" : "Late by"}: ${plan.to_spare_text}`),
  ];
}

function elsewhere(errors, open) {
  if (!errors.length) return null;
  return h(
    "section",
    { class: "elsewhere" },
    h("h3", {}, "Mistakes elsewhere"),
    h(
      "ul",
      {},
      errors.map((error) =>
        h(
          "li",
          {},
          h("span", { class: "place" }, placeOf(error)),
          " ",
          mistakeWords(error),
          " ",
          button("Go there", () => open(error), { class: "small" }),
        ),
      ),
    ),
  );
}
const placeOf = (error) => [error.file, error.line && `line ${error.line}`, error.pointer].filter(Boolean).join(", ");

export function warningsOf(warnings) {
  if (!warnings?.length) return null;
  return h(
    "details",
    {},
    h("summary", {}, `Warnings and assumptions (${warnings.length})`),
    h(
      "ul",
      {},
      warnings.map((w) => h("li", {}, mistakeWords(w))),
    ),
  );
}
