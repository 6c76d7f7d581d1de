/* csv.js against RFC 4180 and its own promise; json_text.js against JSON.parse. */
import { readFileSync, writeFileSync, mkdtempSync, copyFileSync } from "node:fs";
import { join, dirname, resolve } from "node:path";
import { tmpdir } from "node:os";
import { fileURLToPath, pathToFileURL } from "node:url";

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const folder = mkdtempSync(join(process.env.TEST_TMP || tmpdir(), "texts-"));
writeFileSync(join(folder, "package.json"), '{"type": "module"}');
const load = async (name) => {
  copyFileSync(join(ROOT, "src/page/assets", name), join(folder, name));
  return import(pathToFileURL(join(folder, name)));
};
const csv = await load("csv.js"),
  json = await load("json_text.js"),
  words = await load("words.js");

let passed = 0,
  failed = 0;
function same(what, got, wanted) {
  const good = JSON.stringify(got) === JSON.stringify(wanted);
  if (good) passed++;
  else (failed++, console.log(`${what}: ${JSON.stringify(got)}, wanted ${JSON.stringify(wanted)}`));
}

// Tables.
const known = (name) => ["part", "qty", "length", "note"].includes(name.toLowerCase());
const read = (text) => csv.readTable(text, known);
const texts = (table) => table.rows.map((row) => row.cells.map((cell) => cell.text));
const odd =
  '\uFEFF# cut on Friday\r\n\r\nPart;Qty;Length\r\n"a ""b""; c";2;12"\r\n  # set aside\r\n#gone\r\nlast; 3 ;"7\r\n8"';
same("quotes, marks, comments", texts(read(odd)), [
  ['a "b"; c', "2", '12"'],
  ["last", "3", "7\r\n8"],
]);
same("a title above the heading", texts(read("Cut list\n\npart,qty\na,1\n")), [["a", "1"]]);
same("tabs", texts(read("part\tqty\na, b\t1\n")), [["a, b", "1"]]);
same("a column of numbers headed #", texts(read("#,part,qty\n1,a,2\n")), [["1", "a", "2"]]);
same("nothing", texts(read("")), []);
same("one cell", csv.setCell(read(odd), 0, 1, "5"), odd.replace(";2;", ";5;"));
same("a cell that needs quotes", csv.setCell(read("part,qty\na,1\n"), 0, 0, 'b, "c"'), 'part,qty\n"b, ""c""",1\n');
same("a cell behind a short row", csv.setCell(read("part,qty,note\na\n"), 0, 2, "x"), "part,qty,note\na,,x\n");
same("the same cell again", csv.setCell(read(odd), 1, 0, "last"), odd);
same("a row at the end", csv.addRow(read("part,qty\r\na,1"), ["b", "2"]), "part,qty\r\na,1\r\nb,2\r\n");
same("a row between", csv.addRow(read("part,qty\na,1\n# x\nc,3\n"), ["b"], 0), "part,qty\na,1\nb,\n# x\nc,3\n");
same("a row less", csv.removeRow(read("part,qty\na,1\n# x\nc,3\n"), 0), "part,qty\n# x\nc,3\n");
same("a column more", csv.addColumn(read("part,qty\na,1\n# x\nb\n"), "note"), "part,qty,note\na,1,\n# x\nb\n");
same("a first column", csv.addColumn(read(""), "part"), "part\n");
same("the cell of a place", csv.cellAt(read(odd), 4, 14), { row: 0, column: 1 });
same("the cell behind letters of two units", csv.cellAt(read("part,qty\n\u{1F33F}x,1\n"), 2, 4), { row: 0, column: 1 });
same("the heading of a place", csv.cellAt(read("part,qty\na,1\n"), 1, 6), { row: -1, column: 1 });
same("no cell there", csv.cellAt(read("part,qty\na,1\n"), 9, 1), null);
for (const example of ["desk", "doors", "kitchen", "staircase"]) {
  const text = readFileSync(join(ROOT, `examples/${example}-parts.csv`), "utf8");
  const table = csv.readTable(text, (name) => ["part", "piece", "qty", "wood"].includes(name));
  const again = table.rows.reduce(
    (sum, row, i) =>
      row.cells.reduce(
        (t, cell, c) =>
          csv.setCell(
            {
              ...table,
              text: t,
              rows: csv.readTable(t, () => false).rows.length
                ? csv.readTable(t, (n) => ["part", "piece", "qty", "wood"].includes(n)).rows
                : [],
            },
            i,
            c,
            cell.text,
          ),
        sum,
      ),
    text,
  );
  same(
    `${example}: every cell written as it is`,
    csv
      .readTable(again, (n) => ["part", "piece", "qty", "wood"].includes(n))
      .rows.map((r) => r.cells.map((c) => c.text)),
    texts(table),
  );
}

// JSON texts: whatever is changed, JSON.parse sees the change and nothing else.
const desk = readFileSync(join(ROOT, "examples/desk.json"), "utf8");
const value = JSON.parse(desk);
const walk = (at, pointer, out = []) => {
  out.push([pointer, at]);
  if (at && typeof at === "object")
    for (const [key, inner] of Object.entries(at)) walk(inner, pointer + json.pointerOf(key), out);
  return out;
};
const all = walk(value, "");
same(
  "every value is found",
  all.map(([pointer]) => json.valueAt(desk, pointer)),
  all.map(([, at]) => at),
);
const changed = (pointer, act) => {
  const keys = pointer
    .slice(1)
    .split("/")
    .map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));
  const copy = structuredClone(value);
  const parent = keys.slice(0, -1).reduce((at, key) => at[key], copy);
  act(parent, keys.at(-1));
  return copy;
};
for (const [pointer] of all.slice(1)) {
  const put = json.setValue(desk, pointer, "new"),
    gone = json.removeValue(desk, pointer);
  same(
    `put ${pointer}`,
    JSON.parse(put),
    changed(pointer, (parent, key) => (parent[key] = "new")),
  );
  same(
    `take away ${pointer}`,
    JSON.parse(gone),
    changed(pointer, (parent, key) => (Array.isArray(parent) ? parent.splice(Number(key), 1) : delete parent[key])),
  );
}
same(
  "one value, and not a byte more",
  json.setValue(desk, "/reserve", "12 %"),
  desk.replace(/"reserve": "[^"]*"/, '"reserve": "12 %"'),
);
same("the same value", json.setValue(desk, "/job", value.job), desk);
same("a new key", json.setValue('{\n  "a": 1\n}\n', "/b", "c"), '{\n  "a": 1,\n  "b": "c"\n}\n');
same("a new key, deep", json.setValue('{"a": 1}', "/b/c", 2), '{"a": 1, "b": {"c": 2}}');
same("a new item", json.setValue('{"a": [1, 2]}', "/a/2", 3), '{"a": [1, 2, 3]}');
same("a key with a stroke", json.setValue('{"a/b": 1}', json.pointerOf("a/b"), 2), '{"a/b": 2}');
same("another name", json.renameKey('{"a" : 1, "b": 2}', "/a", "c"), '{"c" : 1, "b": 2}');
same("a name that is taken", json.renameKey('{"a": 1, "b": 2}', "/a", "b"), '{"a": 1, "b": 2}');
same("no JSON stays", json.setValue('{"a": ', "/a", 1), '{"a": ');
same("escapes", json.valueAt('{"a\\"": "\\u00e9\\\\"}', json.pointerOf('a"')), "é\\");

// Words.
same("a moment on the shop's clock", words.when("2027-03-29T07:55:00+01:00"), "Mon 29 Mar 07:55");
same("a span", [words.span(1505), words.span(0), words.hours(1505)], ["1 d 1 h 5 min", "0 min", "25 h 5 min"]);
same(
  "the wall's time",
  words.wall(Date.parse("2027-03-29T06:55:00Z"), "2027-03-29T07:00:00-05:00"),
  "2027-03-29T01:55",
);
same(
  "units of a US job",
  [words.area(1, true), words.volume(946.352946, true), words.volume(100, true)],
  ["10.8 ft²", "1 qt", "3.38 fl oz"],
);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
