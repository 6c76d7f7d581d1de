/* The jobs of the folder: will they be ready, what is done today and by whom, what is late, what is to be bought. */
import { h, fill } from "/assets/dom.js";
import { readiness } from "/assets/results.js";
import { get, once, name } from "/assets/api.js";
import { clockTime, day, when, hours, volume, heading } from "/assets/words.js";

export async function homeScreen(main) {
  const [folder, finishes] = await Promise.all([get("/api/folder"), once("/api/finishes")]);
  const names = new Map(finishes.finishes.map((f) => [f.finish, f.short || f.name]));
  fill(
    main,
    h("h1", {}, "Jobs"),
    folder.jobs.length ? jobList(folder.jobs) : empty(),
    folder.jobs.length
      ? h(
          "div",
          { class: "beside" },
          h("div", {}, late(folder.jobs), today(folder)),
          h("div", { class: "side" }, shopping(folder, names)),
        )
      : null,
    folder.jobs.length
      ? h(
          "p",
          { class: "row" },
          h("a", { class: "button", href: "#/new" }, "New job from a cut list"),
          h("a", { class: "button", href: "/calendar.ics" }, "Calendar of all jobs"),
        )
      : null,
  );
  return { changed: () => homeScreen(main) };
}

const empty = () =>
  h(
    "section",
    { class: "card welcome" },
    h(
      "p",
      {},
      "There is no job in this folder yet. A cut list is all it takes: from a spreadsheet, a drawing program, or typed.",
    ),
    h("p", {}, h("a", { class: "button strong", href: "#/new" }, "Begin with a cut list")),
  );

function jobList(jobs) {
  return h(
    "ul",
    { class: "jobs plain" },
    jobs.map((job) => {
      const file = name(job.file);
      return h(
        "li",
        { class: "card" },
        h("h2", {}, h("a", { href: job.ok ? `#/plan/${file}` : `#/job/${file}` }, job.name || job.file)),
        verdict(job),
        h(
          "p",
          { class: "row" },
          job.ok
            ? h(
                "a",
                { class: "button", href: `#/bench/${file}`, "aria-label": `At the bench: ${job.name}` },
                "At the bench",
              )
            : null,
          h("a", { class: "button", href: `#/job/${file}`, "aria-label": `Edit ${job.name || job.file}` }, "Edit"),
        ),
      );
    }),
  );
}

function verdict(job) {
  if (!job.ok)
    return h(
      "p",
      { class: "bad" },
      job.errors.length === 1 ? "1 mistake to mend first" : `${job.errors.length} mistakes to mend first`,
    );
  return [
    readiness(job),
    job.planned ? h("p", { class: "sub" }, `Delivery ${job.deliver_text}; work: ${hours(job.hands_on_min)}`) : null,
  ];
}

function today(folder) {
  const cards = folder.today.map((entry) => entry.day);
  const batches = cards.flatMap((card) => card.batches).sort((a, b) => a.start.localeCompare(b.start));
  const people = [...new Set(batches.map((b) => b.person))].sort();
  return h(
    "section",
    {},
    h("h2", {}, `Today, ${day(folder.now)}`),
    batches.length ? null : h("p", {}, "Nothing is to be done today.", nextOf(cards)),
    people.map((person) =>
      h(
        "div",
        { class: "card" },
        h("h3", {}, person),
        together(folder.jobs, batches.filter((b) => b.person === person)),
        h(
          "ol",
          { class: "day plain" },
          batches
            .filter((b) => b.person === person)
            .map((batch) =>
              h(
                "li",
                {},
                h("span", { class: "time" }, clockTime(batch.start)),
                h(
                  "span",
                  {},
                  heading(batch.words),
                  h(
                    "span",
                    { class: "sub" },
                    [
                      pieces(batch),
                      folder.jobs.length > 1 ? batch.of.map((of) => of.job).join(", ") : null,
                    ]
                      .filter(Boolean)
                      .join(" · "),
                  ),
                ),
              ),
            ),
        ),
      ),
    ),
  );
}

/* Each job is planned for itself: where two of them want the same person at once, that has to be said. */
function together(jobs, batches) {
  const clash = batches.find((b, i) =>
    batches.slice(0, i).some((a) => a.of[0].job !== b.of[0].job && Date.parse(a.end) > Date.parse(b.start)),
  );
  const files = jobs.filter((job) => job.planned).map((job) => (/^[\w.-]+$/.test(job.file) ? job.file : `"${job.file}"`));
  return clash
    ? h(
        "p",
        { class: "bad" },
        `Two jobs at ${clockTime(clash.start)}: each is planned for itself. Plan them together: `,
        h("code", {}, `coatwright plan ${files.join(" ")}`),
      )
    : null;
}
const pieces = (batch) => [...new Set((batch.steps || []).map((step) => step.piece).filter(Boolean))].join(", ");

function nextOf(cards) {
  const next = cards.flatMap((card) => card.next).sort((a, b) => a.start.localeCompare(b.start))[0];
  return next ? ` Next: ${when(next.start)}, ${next.words}.` : null;
}

function late(jobs) {
  const list = jobs.filter((job) => job.ok && job.planned && !job.in_time);
  return list.length
    ? h(
        "section",
        {},
        h("h2", {}, "Late"),
        h(
          "ul",
          {},
          list.map((job) =>
            h("li", {}, h("a", { href: `#/plan/${name(job.file)}` }, job.name), ` ${job.to_spare_text || ""}`),
          ),
        ),
      )
    : null;
}

/* What the jobs buy, with the can sizes. */
function shopping(folder, names) {
  const lists = folder.buy.map(({ file, buy }) => ({
    job: folder.jobs.find((job) => job.file === file),
    lines: buy.finishes.flatMap((f) => linesOf(f, names, folder.jobs.find((job) => job.file === file).units === "us")),
  }));
  const needed = lists.filter((list) => list.lines.length);
  return needed.length
    ? h(
        "section",
        {},
        h("h2", {}, "To buy"),
        needed.map((list) =>
          h(
            "div",
            { class: "card" },
            folder.jobs.length > 1 ? h("h3", {}, list.job.name) : null,
            h("ul", { class: "plain shopping" }, list.lines),
          ),
        ),
      )
    : null;
}
const linesOf = (finish, names, us) =>
  finish.components.flatMap((c) =>
    c.buy.map((pack) =>
      h(
        "li",
        {},
        h("strong", {}, `${pack.count} x ${volume(pack.size_ml, us)}`),
        ` ${names.get(finish.finish) || finish.finish}${finish.components.length > 1 ? `: ${c.component}` : ""}`,
      ),
    ),
  );
