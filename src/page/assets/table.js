/* A table to be edited. Its rows come from a source, a CSV text or an array in a JSON text, each of which keeps what is not changed.
 * On a narrow screen each row becomes a card. */
import { h, fill, button, labelled, choice } from "/assets/dom.js";
import { readTable, setCell, addRow, removeRow, addColumn, cellAt } from "/assets/csv.js";
import { typed, shown } from "/assets/fields.js";

const NARROW = matchMedia("(max-width: 48rem)");
const COLUMNS_MOST = 9;
const LONG = ["note", "notes", "covered", "points", "profile", "wood", "task", "after", "does", "hours", "patch"];

/* `known(name)` says which names make a heading. */
export class CsvSource {
  constructor(draft, file, known) {
    Object.assign(this, { draft, file, known });
  }
  get table() {
    return readTable(this.draft.text(this.file), this.known);
  }
  read() {
    const { heading, rows } = this.table;
    return { names: (heading?.cells || []).map((c) => c.text), rows: rows.map((row) => row.cells.map((c) => c.text)) };
  }
  change(text) {
    this.draft.set(this.file, text);
  }
  set(row, column, value) {
    this.change(setCell(this.table, row, column, value));
  }
  add(values, after) {
    this.change(addRow(this.table, values, after));
  }
  remove(row) {
    this.change(removeRow(this.table, row));
  }
  addColumn(name) {
    this.change(addColumn(this.table, name));
  }
  find(error) {
    return error.line ? cellAt(this.table, error.line, error.column) : null;
  }
}

/* `columns`: the keys that are always shown; `kinds`: of those that are no text, number or list. */
export class JsonSource {
  constructor(draft, place, columns, kinds) {
    Object.assign(this, { draft, file: place.file, pointer: place.pointer, columns, kinds: kinds || {}, more: [] });
  }
  get items() {
    const value = this.draft.value(this);
    return Array.isArray(value) ? value : [];
  }
  read() {
    const items = this.items;
    const names = [...new Set([...this.columns, ...items.flatMap((item) => Object.keys(item || {})), ...this.more])];
    return { names, rows: items.map((item) => names.map((name) => shown(this.kinds[name], item?.[name]))) };
  }
  set(row, column, value) {
    const name = this.read().names[column];
    const kind = this.kinds[name] || (typeof this.items[row]?.[name] === "number" ? "number" : "text");
    this.draft.put({ file: this.file, pointer: `${this.pointer}/${row}/${name}` }, typed(kind, value));
  }
  add(values, after = this.items.length - 1) {
    const { names } = this.read();
    const item = {};
    names.forEach((name, i) => values[i] && (item[name] = typed(this.kinds[name], values[i])));
    const items = this.items;
    if (after === items.length - 1 && items.length)
      this.draft.put({ file: this.file, pointer: `${this.pointer}/${items.length}` }, item);
    else this.draft.put(this, [...items.slice(0, after + 1), item, ...items.slice(after + 1)]);
  }
  remove(row) {
    this.draft.put({ file: this.file, pointer: `${this.pointer}/${row}` }, undefined);
  }
  addColumn(name) {
    this.more.push(name);
  }
  find(error) {
    const rest = error.pointer?.startsWith(`${this.pointer}/`)
      ? error.pointer.slice(this.pointer.length + 1).split("/")
      : [];
    if (!rest.length) return null;
    return { row: Number(rest[0]), column: Math.max(0, this.read().names.indexOf(rest[1])) };
  }
}

/* what: {source, caption, words: labels by name, listOf(name): id of a datalist, core(name): whether its field is shown even when empty, columns: that may be added, fresh: values of a new row by
 * name, under(names, row): node below a row, redrawn(): called after rows were added or removed}. */
export class Table {
  constructor(mistakes, what) {
    this.what = what;
    this.source = what.source;
    this.node = h("div", { class: "table" });
    this.draw();
    mistakes.table(this.source.file, (error) => this.find(error));
    NARROW.addEventListener("change", () => this.shape());
  }

  /* Rows as cards: on a narrow screen, and where there are too many columns for any; fields with nothing in them then wait behind a button. */
  shape() {
    const cards = NARROW.matches || this.names > COLUMNS_MOST;
    this.node.classList.toggle("cards", cards);
    this.node.classList.toggle("all", this.every === true);
  }

  draw() {
    const { names, rows } = this.source.read();
    this.names = names.length;
    this.cells = [];
    const word = (name) => this.what.words?.[name] || name;
    fill(
      this.node,
      rows.length
        ? h(
            "table",
            { class: "edit" },
            h("caption", { class: "hidden" }, this.what.caption),
            h(
              "thead",
              {},
              h(
                "tr",
                {},
                names.map((name) => h("th", { scope: "col" }, word(name) || "column")),
                h("th", { scope: "col" }, h("span", { class: "hidden" }, "row")),
              ),
            ),
            h(
              "tbody",
              {},
              rows.map((row, index) => this.row(names, row, index)),
            ),
          )
        : h("p", { class: "hint" }, "None yet."),
      h(
        "div",
        { class: "row" },
        button(`Add ${this.what.one || "a row"}`, () =>
          this.change(() => this.source.add(names.map((n) => this.what.fresh?.[n] || "")), "last"),
        ),
        this.moreFields(),
        this.columnChoice(names),
      ),
    );
    this.shape();
  }

  moreFields() {
    const more = button(
      this.every ? "Hide empty fields" : "Show empty fields",
      () => {
        this.every = !this.every;
        more.textContent = this.every ? "Hide empty fields" : "Show empty fields";
        this.shape();
      },
      { class: "more" },
    );
    return more;
  }

  row(names, row, index) {
    const label = row[0] || `row ${index + 1}`;
    const fields = names.map((name, column) => this.cell(name, row[column] || "", index, column, label));
    const tools = h(
      "td",
      { class: "tools" },
      button("Copy", () => this.change(() => this.source.add(this.source.read().rows[index], index), index + 1), {
        "aria-label": `Copy ${label}`,
        class: "small",
      }),
      button("Remove", () => this.change(() => this.source.remove(index), Math.max(index - 1, 0)), {
        "aria-label": `Remove ${label}`,
        class: "small",
      }),
    );
    const under = this.what.under?.(names, row);
    return [
      h("tr", {}, fields, tools),
      under ? h("tr", { class: "under" }, h("td", { colspan: names.length + 1 }, under)) : null,
    ];
  }

  cell(name, value, row, column, label) {
    const word = this.what.words?.[name] || name;
    const input = h("input", {
      type: "text",
      "aria-label": `${word} of ${label}`,
      list: this.what.listOf?.(name),
      autocomplete: "off",
      spellcheck: "false",
      value,
      size: Math.max(4, Math.min(16, Math.max(value.length, word.length))),
    });
    const wrong = h("span", { class: "wrong", id: `c-${this.what.key}-${row}-${column}` });
    input.setAttribute("aria-describedby", wrong.id);
    input.addEventListener("input", () => this.source.set(row, column, input.value));
    const cell = h("td", { "data-name": word, class: value || this.what.core?.(name) ? null : "empty" });
    cell.classList.toggle("wide", LONG.includes(name));
    const show = (text) => {
      wrong.textContent = text;
      cell.classList.toggle("told", Boolean(text));
      if (text) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
    };
    this.cells.push({ row, column, show, input });
    cell.append(input, wrong);
    return cell;
  }

  columnChoice(names) {
    const missing = (this.what.columns || []).filter((name) => !names.some((there) => there.toLowerCase() === name));
    if (!missing.length) return null;
    const box = labelled("Add a column", choice([["", "choose"], ...missing], ""));
    box.classList.add("inline");
    box.field.addEventListener(
      "change",
      () => box.field.value && this.change(() => this.source.addColumn(box.field.value), 0),
    );
    return box;
  }

  /* Draws anew, with the focus in a row. */
  change(act, row) {
    act();
    this.draw();
    this.what.redrawn?.();
    const last = this.cells.reduce((most, cell) => Math.max(most, cell.row), 0);
    this.cells.find((cell) => cell.row === (row === "last" ? last : row))?.input.focus();
  }

  /* What shows a text beside the cell of a mistake; without one, every cell is clean. */
  find(error) {
    if (!error) {
      for (const cell of this.cells) cell.show("");
      return null;
    }
    const at = this.source.find(error);
    return (at && this.cells.find((c) => c.row === at.row && c.column === at.column)?.show) || null;
  }
}
