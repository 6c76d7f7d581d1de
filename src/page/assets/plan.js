/* The plan of a job: will it be ready, the timetable as picture and list, what would help, and what can be taken away. */
import { h, fill, button, ask, say } from "/assets/dom.js";
import { get, post, once, name } from "/assets/api.js";
import { clockTime, day, when, hours, volume, area, batchWords, toolWords, STATES } from "/assets/words.js";
import { verdictOf, warningsOf } from "/assets/results.js";

export async function planScreen(main, file) {
  const at = name(file);
  const [job, finishes] = await Promise.all([get(`/api/job/${at}`), once("/api/finishes")]);
  const names = new Map(finishes.finishes.map((f) => [f.finish, f.short || f.name]));
  const sound = !job.state.errors.length && job.state.plan?.planned;
  const plan = job.state.errors.length ? null : await get(`/api/plan/${at}`).catch(() => null);
  const timetable = plan?.timetable;
  const help = h("section", { class: "help" });
  fill(main, h("div", { class: "heading" }, h("h1", {}, timetable?.job || job.state.area?.job || file),
    h("p", { class: "row" }, h("a", { class: "button", href: `#/job/${at}` }, "Edit"), sound ? h("a", { class: "button strong", href: `#/bench/${at}` }, "At the bench") : null)),
    h("div", { class: "card verdict", role: "status" }, verdictOf(job.state, job.state.errors.length), timetable ? h("p", { class: "sub" }, delivery(timetable)) : null),
    help, sound ? takeAway(at) : null, timetable ? [first(timetable, names, plan), picture(at, timetable), list(timetable, names), buying(plan, names), handling(timetable), cautions(plan)] : null,
    warningsOf(job.state.warnings));
  if (plan) showHelp(help, file, () => planScreen(main, file));
  return { changed: (what) => (!what || what === file) && planScreen(main, file) };
}

function delivery(t) {
  const proven = t.ready_proven ? "; no earlier finish is possible" : t.no_earlier_than ? `; no finish before ${when(t.no_earlier_than)} is possible` : "";
  return `Delivery ${when(t.deliver)}${proven}. Work: ${hours(t.hands_on_min)}${t.work_proven ? ", no plan takes less work" : ""}.`;
}

/* What would help is asked for by itself: each line is planned, which takes a moment. */
async function showHelp(node, file, again) {
  const { lines } = await get(`/api/advice/${name(file)}`).catch(() => ({ lines: [] }));
  if (!lines?.length) return;
  fill(node, h("h2", {}, "What would help"), h("ol", { class: "card advice plain" }, lines.map((line) => {
    const [what, ...change] = line.text.replace(/^\d+\. /, "").split(/; in (?=\S+: `)/);
    return h("li", {}, h("p", {}, what), change.length ? h("details", {}, h("summary", {}, "The change to the files"), h("code", {}, change.join("; "))) : null,
      change.length || line.text.includes("`") ? button("Make this change", () => apply(file, line, what, again), { "aria-label": `Make this change: ${what}` }) : null);
  })));
}

async function apply(file, line, what, again) {
  const answer = await ask("Make this change?", h("p", {}, `${what}. It is written into the files of the job; an earlier version of each is kept.`), [["yes", "Make it", "strong"], ["", "Leave it", "quiet"]]);
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
  const link = (href, text, more) => h("a", { class: "button", href, ...more }, text);
  return h("section", {}, h("h2", {}, "Print and take away"), h("p", { class: "row" }, link(file("sheet.html"), "Sheet to print, A4", { target: "_blank" }),
    link(`${file("sheet.html")}?letter=1`, "Sheet to print, Letter", { target: "_blank" }), link(file("shopping.csv"), "Shopping list", { download: true }),
    link(file("timetable.ics"), "Calendar file", { download: true }), link(file("plan.json"), "Plan as JSON", { download: true })),
    h("p", {}, "To subscribe in a calendar, give it this address: ", h("code", { class: "address" }, new URL(`/calendar/${at}.ics`, location.href).href)));
}

function first(timetable, names, plan) {
  if (!timetable.batches?.length) return null;
  const days = [...new Set(timetable.batches.map((b) => b.start.slice(0, 10)))].slice(0, 2);
  return h("section", {}, h("h2", {}, "First days"), dayList(timetable, timetable.batches.filter((b) => days.includes(b.start.slice(0, 10))), names, plan));
}

function dayList(timetable, batches, names, plan) {
  const steps = new Map(timetable.steps.map((step) => [step.id, step]));
  const days = [...new Set(batches.map((b) => b.start.slice(0, 10)))];
  const several = new Set(timetable.batches.map((b) => b.person)).size > 1;
  return days.map((date) => h("div", { class: "card" }, h("h3", {}, day(date)), h("ol", { class: "day plain" }, batches.filter((b) => b.start.startsWith(date)).map((batch) => {
    const pieces = [...new Set(batch.steps.map((s) => steps.get(s.id)?.piece).filter(Boolean))];
    const mixes = mixesOf(plan, batch);
    return h("li", {}, h("span", { class: "time" }, clockTime(batch.start)), h("span", {}, batchWords(batch, names),
      h("span", { class: "sub" }, [pieces.join(", "), toolWords(batch.tool || ""), several ? batch.person : null, hours(batch.hands_on_min)].filter(Boolean).join(" · ")),
      mixes ? h("span", { class: "sub" }, mixes) : null, batch.note ? h("span", { class: "sub" }, batch.note) : null));
  }))));
}

function mixesOf(plan, batch) {
  const ids = new Set(batch.steps.map((s) => s.id));
  return (plan?.mix?.mixes || []).filter((mix) => mix.serves?.some((s) => ids.has(s.step))).map((mix) =>
    `mix ${clockTime(mix.mixed_at)}: ${volume(mix.volume_ml)}${mix.apply_by ? `, apply by ${clockTime(mix.apply_by)}` : ""}`).join("; ");
}

function picture(at, timetable) {
  return h("section", {}, h("h2", {}, "Timetable"), h("div", { class: "picture", tabindex: "0", role: "region", "aria-label": "Timetable as a picture" },
    h("img", { src: `/files/${at}/timetable.svg?v=${encodeURIComponent(timetable.ready)}-${timetable.batches.length}`, alt: "The days of the job, a row for each piece and schedule; the list below says the same in words" })));
}

const list = (timetable, names) => h("details", {}, h("summary", {}, `All batches (${timetable.batches.length})`), dayList(timetable, timetable.batches, names));

function buying(plan, names) {
  const rows = plan.buy.finishes.flatMap((f) => f.components.flatMap((c) => c.buy.map((p) => h("li", {}, h("strong", {}, `${p.count} x ${volume(p.size_ml)}`),
    ` ${names.get(f.finish) || f.finish}${f.components.length > 1 ? `: ${c.component}` : ""}`))));
  return rows.length ? h("section", {}, h("h2", {}, "To buy"), h("ul", { class: "card plain shopping" }, rows), h("p", { class: "sub" }, `Areas: ${area(plan.area.finished_m2)} to finish.`)) : null;
}

function handling(timetable) {
  const pieces = [...new Set(timetable.states.map((s) => s.piece))];
  const shown = ["handle", "wrap", "light-use", "cured"];
  const of = (piece, state) => timetable.states.find((s) => s.piece === piece && s.state === state);
  return h("section", {}, h("h2", {}, "Handle, wrap, use"), h("table", { class: "read" }, h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "piece"), shown.map((s) => h("th", { scope: "col" }, STATES[s])))),
    h("tbody", {}, pieces.map((piece) => h("tr", {}, h("th", { scope: "row" }, piece), shown.map((s) => h("td", { "data-name": STATES[s] }, of(piece, s)?.at ? (s === "cured" ? day : when)(of(piece, s).at) : "")))))));
}

const cautions = (plan) => (plan.cautions?.length ? h("section", {}, h("h2", {}, "Take care"), h("p", {}, "The data sheet of your can and local rules decide."),
  h("ul", {}, plan.cautions.map((c) => h("li", {}, c.replace(/; the data sheet and local rules decide$/, ""))))) : null);
