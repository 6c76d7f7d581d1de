/* A table in a text (CSV, with commas, semicolons or tabs) that is changed cell by cell: whatever is not changed, comments, quotes,
 * line ends and odd spaces included, stays as somebody wrote it. Read by the same rules as the program reads it: blank rows and rows
 * that begin with # are no rows, a quote counts only as the first character of a cell. */

function separatorOf(text) {
  const counts = { ",": 0, ";": 0, "\t": 0 };
  let quoted = false;
  for (const c of text) {
    if (c === '"') quoted = !quoted;
    else if (!quoted && c in counts) counts[c]++;
    else if (!quoted && (c === "\n" || c === "\r") && Math.max(...Object.values(counts))) break;
  }
  return Object.keys(counts).reduce((best, c) => (counts[c] > counts[best] ? c : best));
}

function readCell(text, at, separator) {
  const start = at;
  let value = "";
  if (text[at] === '"') {
    for (at++; at < text.length; at++) {
      if (text[at] !== '"') value += text[at];
      else if (text[at + 1] === '"') value += text[at++];
      else break;
    }
    at++;
  }
  const rest = at;
  while (at < text.length && text[at] !== separator && text[at] !== "\n" && text[at] !== "\r") at++;
  return { start, end: at, text: (value + text.slice(rest, at)).trim() };
}

function readRow(text, at, separator) {
  const row = { start: at, cells: [] };
  for (;;) {
    const cell = readCell(text, at, separator);
    row.cells.push(cell);
    at = cell.end;
    if (text[at] !== separator) break;
    at++;
  }
  row.stop = at;
  row.end = text.startsWith("\r\n", at) ? at + 2 : Math.min(at + 1, text.length);
  return row;
}

/* Rows with their cells; `known(name)` says which names make a heading: the first row with two of them, else the first row. */
export function readTable(text, known) {
  const separator = separatorOf(text);
  const heads = (row) => row.cells.filter((cell) => known(cell.text)).length >= 2;
  const rows = [];
  let at = text.startsWith("\uFEFF") ? 1 : 0;
  while (at < text.length) {
    const mark = /[ \t]*#/y;
    mark.lastIndex = at;
    // Before the heading, "#" in a cell of its own is the name of a column of numbers.
    const hash = mark.test(text) && (text[mark.lastIndex] !== separator || rows.some(heads));
    let row = readRow(text, at, separator);
    if (hash) {
      const end = text.indexOf("\n", at);
      row = { start: at, cells: [], end: end < 0 ? text.length : end + 1 };
    }
    if (row.cells.some((cell) => cell.text)) rows.push(row);
    at = Math.max(row.end, at + 1);
  }
  const found = rows.findIndex(heads);
  const heading = found < 0 ? 0 : found;
  return { text, separator, heading: rows[heading] || null, rows: rows.slice(heading + 1) };
}

function written(value, separator) {
  const needs = value.includes(separator) || /[\r\n]/.test(value) || value.startsWith('"') || value !== value.trim();
  return needs ? `"${value.replaceAll('"', '""')}"` : value;
}

const lineEnd = (text) => (text.includes("\r\n") ? "\r\n" : "\n");
const splice = (text, start, end, put) => text.slice(0, start) + put + text.slice(end);

/* Each of these gives the new text. */
export function setCell(table, row, column, value) {
  const { text, separator } = table;
  const cells = table.rows[row].cells;
  if (column < cells.length) return splice(text, cells[column].start, cells[column].end, written(value, separator));
  return splice(
    text,
    table.rows[row].stop,
    table.rows[row].stop,
    separator.repeat(column - cells.length + 1) + written(value, separator),
  );
}

/* A row behind `after` (left out: the last) with these values, by column. */
export function addRow(table, values, after = table.rows.length - 1) {
  const { text, separator, heading } = table;
  const before = table.rows[after] || heading;
  const line = Array.from({ length: heading?.cells.length || values.length }, (_, i) =>
    written(values[i] || "", separator),
  ).join(separator);
  const end = before ? before.end : text.length;
  const open = end > 0 && !/[\r\n]/.test(text[end - 1]) ? lineEnd(text) : "";
  return splice(text, end, end, open + line + lineEnd(text));
}

export function removeRow(table, row) {
  return splice(table.text, table.rows[row].start, table.rows[row].end, "");
}

/* A column at the right end; short rows are filled up, so that each keeps its cells under their names. */
export function addColumn(table, name) {
  const { heading, separator } = table;
  if (!heading) return `${name}${lineEnd(table.text)}`;
  const count = heading.cells.length;
  let text = table.text;
  for (const row of [...table.rows].reverse())
    if (row.cells.length >= count) text = splice(text, row.cells[count - 1].end, row.cells[count - 1].end, separator);
  return splice(text, heading.stop, heading.stop, separator + written(name, separator));
}

/* The cell at a line and column (from 1, characters) of the text: {row, column}, row -1 for the heading; null: none is there. */
export function cellAt(table, line, column) {
  let start = 0;
  for (let i = 1; i < line && start >= 0; i++) {
    const next = table.text.slice(start).search(/\r\n|\r|\n/);
    start = next < 0 ? -1 : start + next + (table.text.startsWith("\r\n", start + next) ? 2 : 1);
  }
  if (start < 0) return null;
  const at = start + [...table.text.slice(start)].slice(0, Math.max(column - 1, 0)).join("").length;
  const all = [table.heading, ...table.rows].filter(Boolean);
  const row = all.findIndex((r) => r.start <= at && at < Math.max(r.end, r.start + 1));
  if (row < 0) return null;
  const cells = all[row].cells;
  let cell = cells.findLastIndex((c) => c.start <= at);
  if (column < 1) cell = 0;
  return { row: row - 1, column: Math.max(cell, 0) };
}
