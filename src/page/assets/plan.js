/* The plan of a job: will it be ready, the first days, what to buy, what would help, the timetable, and what can be taken away. */
import { h, fill, button, ask, say } from "/assets/dom.js";
import { get, post, once, name } from "/assets/api.js";
import { clockTime, day, when, hours, volume, area, heading, toolWords, STATES } from "/assets/words.js";
import { verdictOf, warningsOf } from "/assets/results.js";

export async function planScreen(main, file) {
  const at = name(file);
  const [job, finishes] = await Promise.all([get(`/api/job/${at}`), once("/api/finishes")]);
  const names = new Map(finishes.finishes.map((f) => [f.finish, f.short || f.name]));
  const plan = job.state.errors.length ? null : await get(`/api/plan/${at}`).catch(() => null);
  const planned = plan?.timetable.status === "planned";
  const us = /"units"\s*:\s*"(in|ft)"/.test(job.texts[file]?.text);
  const help = h("section", { class: "help" });
  fill(
    main,
    head(at, plan?.timetable.job || job.state.area?.job || file, planned),
    h(
      "div",
      { class: "card verdict", role: "status" },
      verdictOf(job.state, job.state.errors.length),
      planned ? h("p", { class: "sub" }, delivery(plan.timetable)) : null,
    ),
    help,
    planned
      ? [
          h(
            "div",
            { class: "beside" },
            h("div", {}, first(plan), handling(plan.timetable)),
            h("div", { class: "side" }, buying(plan, names, us), takeAway(at)),
          ),
          picture(at, plan.timetable),
          list(plan),
          cautions(plan),
        ]
      : null,
    warningsOf(job.state.warnings),
  );
  if (plan) showHelp(help, file, () => planScreen(main, file));
  return { changed: (what) => (!what || what === file) && planScreen(main, file) };
}

function head(at, title, planned) {
  return h(
    "div",
    { class: "heading" },
    h("h1", {}, title),
    h(
      "p",
      { class: "row" },
      h("a", { class: "button", href: `#/job/${at}` }, "Edit"),
      planned
        ? [
            h("a", { class: "button", href: `/files/${at}/sheet.html`, target: "_blank" }, "Sheet to print"),
            h("a", { class: "button strong", href: `#/bench/${at}` }, "At the bench"),
          ]
        : null,
    ),
  );
}

function delivery(t) {
  const proven = t.ready_proven
    ? "; no earlier finish is possible in these lots"
    : t.no_earlier_than
      ? `; no finish before ${when(t.no_earlier_than)} is possible in these lots`
      : "";
  return `Delivery ${when(t.deliver)}${proven}. Work: ${hours(t.hands_on_min)}${t.work_proven ? ", no plan takes less work" : ""}.`;
}

/* What would help is asked for by itself: each line is planned, which takes a moment. */
async function showHelp(node, file, again) {
  const { lines } = await get(`/api/advice/${name(file)}`).catch(() => ({ lines: [] }));
  if (!lines?.length) return;
  fill(
    node,
    h("h2", {}, "What would help"),
    h(
      "ol",
      { class: "card advice plain" },
      lines.map((line) => {
        const [what, ...change] = line.text.replace(/^\d+\. /, "").split(/; in (?=\S+: `)/);
        return h(
          "li",
          {},
          h("p", {}, what),
          change.length
            ? h("details", {}, h("summary", {}, "The change to the files"), h("code", {}, change.join("; ")))
            : null,
          change.length || line.text.includes("`")
            ? button("Make this change", () => apply(file, line, what, again), {
                "aria-label": `Make this change: ${what}`,
              })
            : null,
        );
      }),
    ),
  );
}

async function apply(file, line, what, again) {
  const answer = await ask(
    "Make this change?",
    h("p", {}, `${what}. It is written into the files of the job; an earlier version of each is kept.`),
    [
      ["yes", "Make it", "strong"],
      ["", "Leave it", "quiet"],
    ],
  );
  if (answer !== "yes") return;
  try {
    await post(`/api/apply/${name(file)}`, { number: line.number });
    say("The change was made.");
    await again();
  } catch (refused) {
    say(refused.message);
  }
}

function takeAway(at) {
  const file = (what) => `/files/${at}/${what}`;
  const link = (href, text, more) => h("li", {}, h("a", { href, ...more }, text));
  return h(
    "section",
    {},
    h("h2", {}, "Take away"),
    h(
      "ul",
      { class: "card plain links" },
      link(`${file("sheet.html")}?letter=1`, "Sheet to print on Letter", { target: "_blank" }),
      link(file("shopping.csv"), "Shopping list", { download: true }),
      link(file("timetable.ics"), "Calendar file", { download: true }),
      link(file("plan.json"), "Plan as JSON", { download: true }),
      h(
        "li",
        {},
        "To subscribe in a calendar, give it this address: ",
        h("code", { class: "address" }, new URL(`/calendar/${at}.ics`, location.href).href),
        ["127.0.0.1", "localhost", "[::1]"].includes(location.hostname)
          ? null
          : " with ?token= and the secret behind it.",
      ),
    ),
  );
}

function first(plan) {
  return h("section", {}, h("h2", {}, "First days"), dayList(plan, datesOf(plan).slice(0, 2)));
}

const datesOf = (plan) => [...new Set(plan.timetable.batches.map((b) => b.start.slice(0, 10)))];
function dayList(plan, dates) {
  const steps = new Map(plan.timetable.steps.map((step) => [step.id, step]));
  const several = new Set(plan.timetable.batches.map((b) => b.person)).size > 1;
  return dates.map((date) =>
    h(
      "div",
      { class: "card" },
      h("h3", {}, day(date)),
      h(
        "ol",
        { class: "day plain" },
        plan.timetable.batches
          .filter((b) => b.start.startsWith(date))
          .map((batch) => {
            const pieces = [...new Set(batch.steps.map((s) => steps.get(s.id)?.piece).filter(Boolean))];
            const more = [
              [pieces.join(", "), toolWords(batch.tool || ""), several ? batch.person : null, hours(batch.hands_on_min)]
                .filter(Boolean)
                .join(" · "),
              ...mixesOf(plan, batch),
              batch.note,
            ];
            return h(
              "li",
              {},
              h("span", { class: "time" }, clockTime(batch.start)),
              h(
                "span",
                {},
                heading(batch.words),
                more.filter(Boolean).map((text) => h("span", { class: "sub" }, text)),
              ),
            );
          }),
      ),
    ),
  );
}

function mixesOf(plan, batch) {
  const ids = new Set(batch.steps.map((s) => s.id));
  return plan.mix.mixes
    .filter((mix) => mix.serves.some((s) => ids.has(s.step)))
    .map(
      (mix) =>
        `mix at ${clockTime(mix.mixed_at)}: ${volume(mix.volume_ml)}${mix.apply_by ? `, apply by ${clockTime(mix.apply_by)}` : ""}`,
    );
}

function picture(at, timetable) {
  return h(
    "section",
    {},
    h("h2", {}, "Timetable"),
    h(
      "div",
      { class: "picture", tabindex: "0", role: "region", "aria-label": "Timetable as a picture" },
      h("img", {
        src: `/files/${at}/timetable.svg?v=${encodeURIComponent(timetable.ready)}-${timetable.batches.length}`,
        alt: "The days of the job, a row for each piece and schedule; the list below says the same in words",
      }),
    ),
  );
}

const list = (plan) =>
  h("details", {}, h("summary", {}, `All batches (${plan.timetable.batches.length})`), dayList(plan, datesOf(plan)));

function buying(plan, names, us) {
  const rows = plan.buy.finishes.flatMap((f) =>
    f.components.flatMap((c) =>
      c.buy.map((p) =>
        h(
          "li",
          {},
          h("strong", {}, `${p.count} x ${volume(p.size_ml, us)}`),
          ` ${names.get(f.finish) || f.finish}${f.components.length > 1 ? `: ${c.component}` : ""}`,
        ),
      ),
    ),
  );
  return h(
    "section",
    {},
    h("h2", {}, "To buy"),
    h(
      "ul",
      { class: "card plain shopping" },
      rows.length ? rows : h("li", {}, "Everything is in stock."),
      h("li", { class: "sub" }, `for ${area(plan.area.finished_m2, us)}`),
    ),
  );
}

function handling(timetable) {
  const pieces = [...new Set(timetable.states.map((s) => s.piece))];
  const shown = ["handle", "wrap", "light-use", "cured"];
  const of = (piece, state) => timetable.states.find((s) => s.piece === piece && s.state === state)?.at;
  return h(
    "section",
    {},
    h("h2", {}, "Handle, wrap, use"),
    h(
      "table",
      { class: "read" },
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          h("th", { scope: "col" }, "piece"),
          shown.map((s) => h("th", { scope: "col" }, STATES[s])),
        ),
      ),
      h(
        "tbody",
        {},
        pieces.map((piece) =>
          h(
            "tr",
            {},
            h("th", { scope: "row" }, piece),
            shown.map((s) =>
              h("td", { "data-name": STATES[s] }, of(piece, s) ? (s === "cured" ? day : when)(of(piece, s)) : ""),
            ),
          ),
        ),
      ),
    ),
  );
}

const cautions = (plan) =>
  plan.cautions?.length
    ? h(
        "section",
        {},
        h("h2", {}, "Take care"),
        h("p", {}, "The data sheet of your can and local rules decide."),
        h(
          "ul",
          {},
          plan.cautions.map((c) => h("li", {}, c.replace(/; the data sheet and local rules decide$/, ""))),
        ),
      )
    : null;
