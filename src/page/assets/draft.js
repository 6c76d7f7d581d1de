/* The files of a job as they are being edited: texts over those that were read, what the program says of them, and saving. */
import { get, post, name } from "/assets/api.js";
import { soon } from "/assets/dom.js";
import { setValue, removeValue, valueAt } from "/assets/json_text.js";

const WAIT_MS = 250;

export class Draft {
  constructor(file, read) {
    this.file = file;
    this.texts = read.texts;
    for (const text of Object.values(this.texts)) text.base = text.text;
    this.state = read.state;
    this.listeners = new Set();
    this.trying = null;
    this.soon = soon(() => this.try(), WAIT_MS);
  }

  static async read(file) {
    return new Draft(file, await get(`/api/job/${name(file)}`));
  }

  /* The name of the (first) file of a kind; for the parts list and the shop, whatever the job names. */
  of(kind) {
    return Object.keys(this.texts).find((key) => this.texts[key].kind === kind) || null;
  }
  all(kind) {
    return Object.keys(this.texts).filter((key) => this.texts[key].kind === kind);
  }
  text(file) {
    return this.texts[file]?.text || "";
  }
  changed() {
    return Object.keys(this.texts).filter((key) => this.texts[key].text !== this.texts[key].base);
  }
  /* The texts that were changed, by their names. */
  edited() {
    return Object.fromEntries(this.changed().map((key) => [key, this.texts[key].text]));
  }
  get dirty() {
    return this.changed().length > 0;
  }

  set(file, text) {
    if (!this.texts[file] || this.texts[file].text === text) return;
    this.texts[file].text = text;
    this.tell("text", file);
    this.soon();
  }
  value(place) {
    return valueAt(this.text(place.file), place.pointer);
  }
  /* undefined takes the key away. */
  put(place, value) {
    const text = this.text(place.file);
    this.set(place.file, value === undefined ? removeValue(text, place.pointer) : setValue(text, place.pointer, value));
  }

  listen(listener) {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
  tell(what, more) {
    for (const listener of [...this.listeners]) listener(what, more);
  }

  /* What the program says of the texts as they are now; an answer that was overtaken is left. */
  async try() {
    this.trying?.abort();
    const mine = (this.trying = new AbortController());
    this.tell("trying");
    try {
      this.state = await post(`/api/try/${name(this.file)}`, { texts: this.edited(), effort: "quick", advice: false }, mine.signal);
      this.trouble = null;
    } catch (refused) {
      if (refused.name === "AbortError") return;
      this.trouble = refused.message;
    }
    if (this.trying === mine) this.trying = null;
    this.tell("state");
  }

  /* Gives null, or what somebody else wrote meanwhile: {name: {text, version}}. */
  async save() {
    const sent = Object.fromEntries(
      this.changed().map((key) => [key, { text: this.texts[key].text, version: this.texts[key].version }]),
    );
    try {
      const saved = await post(`/api/save/${name(this.file)}`, { texts: sent });
      for (const [key, { text }] of Object.entries(sent)) {
        this.texts[key].base = text;
        this.texts[key].version = saved.texts[key]?.version;
      }
    } catch (refused) {
      if (refused.status === 409 && refused.body.texts) return refused.body.texts;
      throw refused;
    }
    this.tell("saved");
    return null;
  }

  /* What others wrote is taken where nothing was changed here; the names of those that were changed on both sides. */
  async refresh() {
    const read = await get(`/api/job/${name(this.file)}`);
    const both = [];
    for (const [key, theirs] of Object.entries(read.texts)) {
      const mine = this.texts[key];
      if (mine && mine.version === theirs.version) continue;
      if (mine && mine.text !== mine.base) both.push(key);
      else this.texts[key] = { ...theirs, base: theirs.text };
    }
    if (!this.dirty) this.state = read.state;
    this.tell("read");
    if (this.dirty) this.soon();
    return both;
  }
}
