/* At the bench, on a phone: today's batches one at a time, large, and what became of them. */
import { h, fill, button, labelled, choice, say } from "/assets/dom.js";
import { get, post, once, name, setClock } from "/assets/api.js";
import { clockTime, day, when, area, volume, heading, toolWords, sideOf, BEFORE } from "/assets/words.js";
import { mixCard } from "/assets/mixcard.js";
import { doneForm, againForm, moreForm } from "/assets/record.js";

class Bench {
  constructor(main, file, names) {
    Object.assign(this, { main, file, names, us: false, index: 0, id: null, timers: [] });
    this.person = localStorage.getItem("person") || "";
    this.day = "";
  }

  async read() {
    const query = new URLSearchParams(Object.entries({ day: this.day, person: this.person }).filter(([, v]) => v));
    const card = await this.card(query);
    this.today = card;
    const there = card.batches.findIndex((batch) => idOf(batch) === this.id);
    this.index = there >= 0 ? there : Math.max(0, Math.min(this.index, card.batches.length - 1));
    this.draw();
  }
  /* What does not change while this screen is open: the shop's clock and the job's units. */
  async open() {
    const folder = await get("/api/folder");
    this.us = folder.jobs.find((job) => job.file === this.file)?.units === "us";
    await this.read();
    setClock(folder.now, this.today.batches[0]?.start || this.today.next[0]?.start);
    if (this.today.batches.some((batch) => batch.mixes.length)) this.draw();
  }
  /* A person whom this job does not have is nobody. */
  async card(query) {
    try {
      return await get(`/api/today/${name(this.file)}?${query}`);
    } catch (refused) {
      if (!this.person) throw refused;
      this.person = "";
      localStorage.removeItem("person");
      return get(`/api/today/${name(this.file)}?${new URLSearchParams(this.day ? { day: this.day } : {})}`);
    }
  }

  draw() {
    this.stop();
    const { batches } = this.today;
    const batch = batches[this.index];
    this.id = batch ? idOf(batch) : null;
    fill(
      this.main,
      h(
        "div",
        { class: "bench" },
        this.head(batches.length),
        batch ? this.batch(batch) : this.nothing(),
        this.doneList(),
      ),
    );
    if (batch) this.main.firstChild.append(this.bar(batch));
  }

  head(count) {
    const go = (by) => () => {
      this.index += by;
      this.draw();
      this.main.querySelector("h1")?.focus();
    };
    return h(
      "div",
      { class: "benchhead" },
      h("p", {}, `${day(this.today.day + "T")}${count ? `: batch ${this.index + 1} of ${count}` : ""}`),
      this.who(),
      count > 1
        ? h(
            "div",
            { class: "row" },
            button("Before", go(-1), { disabled: this.index === 0 }),
            button("Next", go(1), { disabled: this.index >= count - 1 }),
          )
        : null,
    );
  }

  who() {
    const people = [
      ...new Set([...this.today.batches, ...this.today.next].map((b) => b.person).concat(this.person || [])),
    ].sort();
    if (people.length < 2 && !this.person) return null;
    const box = labelled("Whose work", choice([["", "everyone's"], ...people], this.person));
    box.classList.add("inline");
    box.field.addEventListener("change", () => {
      this.person = box.field.value;
      localStorage.setItem("person", this.person);
      this.read().catch((refused) => say(refused.message));
    });
    return box;
  }

  nothing() {
    const next = [...this.today.next].sort((a, b) => a.start.localeCompare(b.start))[0];
    return h(
      "section",
      { class: "card" },
      h("h1", { tabindex: "-1" }, "Nothing more for this day"),
      next ? h("p", { class: "large" }, `Next: ${when(next.start)}, ${next.words}`) : null,
      next
        ? button(`Look at ${day(next.start)}`, () => ((this.day = next.start.slice(0, 10)), this.read()), {
            class: "big",
          })
        : null,
      this.day ? button("Back to today", () => ((this.day = ""), this.read()), { class: "big" }) : null,
    );
  }

  batch(batch) {
    return h(
      "section",
      { class: "card batch" },
      h("p", { class: "times" }, `${clockTime(batch.start)} to ${clockTime(batch.end)}`),
      h("h1", { tabindex: "-1" }, heading(batch.words)),
      h(
        "p",
        { class: "sub" },
        [toolWords(batch.tool || ""), batch.person, batch.helper && `with ${batch.helper}`].filter(Boolean).join(" · "),
      ),
      this.before(batch),
      batch.mixes.map((mix, i) =>
        mixCard(mix, { key: `${this.file}/${idOf(batch)}/${i}`, names: this.names, us: this.us, timers: this.timers }),
      ),
      h("h2", { class: "small" }, "In this order"),
      h(
        "ol",
        { class: "pieces plain" },
        batch.steps.map((step) => this.step(step)),
      ),
      batch.cautions.length
        ? h(
            "details",
            { open: true },
            h("summary", {}, "Take care"),
            h(
              "ul",
              {},
              batch.cautions.map((c) => h("li", {}, c.replace(/; the data sheet and local rules decide$/, ""))),
            ),
            h("p", { class: "sub" }, "The data sheet and local rules decide."),
          )
        : null,
    );
  }

  before(batch) {
    if (!batch.before.length) return null;
    return h(
      "ul",
      { class: "before plain" },
      batch.before.map((b) => h("li", {}, `${b.id.split("/")[0]}: ${BEFORE[b.what] || b.what} since ${when(b.since)}`)),
    );
  }

  step(step) {
    const amount = step.volume_ml ? volume(step.volume_ml, this.us) : step.area_m2 ? area(step.area_m2, this.us) : "";
    const what =
      step.do === "flip"
        ? `turn over ${step.piece || ""}`
        : [step.piece, sideOf(step.id)].filter(Boolean).join(", ") || "";
    return h(
      "li",
      {},
      h("span", { class: "time" }, clockTime(step.start)),
      h("span", {}, what || heading(step.words), h("span", { class: "sub" }, amount)),
      step.begin_before ? h("span", { class: "sub watch" }, `begin before ${when(step.begin_before)}`) : null,
      step.note ? h("span", { class: "sub" }, step.note) : null,
    );
  }

  /* The large buttons at the thumb; what they ask comes up in their place. */
  bar(batch) {
    const bar = h("div", { class: "thumb", role: "region", "aria-label": "What became of it" });
    const back = (focus) => {
      fill(
        bar,
        button("Done", () => this.record({ kind: "done", what: idOf(batch) }, `Done: ${batch.words}.`), {
          class: "strong big",
        }),
        h(
          "div",
          { class: "row" },
          button("Done, but", open(doneForm)),
          button("Again", open(againForm)),
          button("More", open(moreForm)),
        ),
      );
      if (focus) bar.querySelector("button").focus();
    };
    const open = (form) => () => {
      fill(
        bar,
        form({
          batch,
          id: idOf(batch),
          file: this.file,
          today: this.today,
          record: (what, told) => this.record(what, told, bar),
          back: () => back(true),
        }),
      );
      bar.querySelector("select, input, button")?.focus();
    };
    back();
    return bar;
  }

  async record(what, told, bar) {
    try {
      await post(`/api/record/${name(this.file)}`, what);
      say(
        told,
        what.kind === "undo"
          ? null
          : button("Undo", () => this.record({ kind: "undo" }, "Taken back."), { class: "small" }),
      );
      navigator.vibrate?.(40);
      await this.read();
      this.main.querySelector("h1")?.focus();
    } catch (refused) {
      const place = bar?.querySelector(".refused");
      if (place) fill(place, refused.message);
      else say(refused.message);
    }
  }

  doneList() {
    const done = this.today.done || [];
    return done.length
      ? h(
          "details",
          {},
          h("summary", {}, `Done (${done.length})`),
          h(
            "ul",
            { class: "plain" },
            done.map((d) =>
              h("li", {}, typeof d === "string" ? d : `${d.done ? `${clockTime(d.done)} ` : ""}${d.id || d.step}`),
            ),
          ),
        )
      : null;
  }

  stop() {
    this.timers.splice(0).forEach(clearInterval);
  }
}

const idOf = (batch) => batch.of[0]?.id;

export async function benchScreen(main, file) {
  const finishes = await once("/api/finishes");
  const bench = new Bench(main, file, new Map(finishes.finishes.map((f) => [f.finish, f.short || f.name])));
  await bench.open();
  return {
    stop: () => bench.stop(),
    changed: (what) => (!what || what === file) && !main.querySelector(".thumb form") && bench.read(),
  };
}
