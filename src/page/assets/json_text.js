/* A JSON text that is changed value by value: the spaces, order and line breaks of everything else stay as somebody wrote them. */

/* Where each value is: {start, end, kind, items: [node] or members: [{key, start (of the key), node}]}; null: it is no JSON. */
export function readJson(text) {
  const reader = { text, at: 0 };
  try {
    JSON.parse(text);
    blank(reader);
    return readValue(reader);
  } catch {
    return null;
  }
}

function blank(reader) {
  while (" \t\r\n".includes(reader.text[reader.at] || "x")) reader.at++;
}

function readValue(reader) {
  const { text } = reader;
  const start = reader.at;
  if (text[start] === "{" || text[start] === "[") return readList(reader, text[start] === "{");
  if (text[start] === '"') {
    for (reader.at++; text[reader.at] !== '"'; reader.at++) if (text[reader.at] === "\\") reader.at++;
    reader.at++;
  } else {
    while (reader.at < text.length && !",]} \t\r\n".includes(text[reader.at])) reader.at++;
  }
  return { start, end: reader.at, kind: "plain" };
}

function readList(reader, keyed) {
  const { text } = reader;
  const node = keyed
    ? { start: reader.at, kind: "object", members: [] }
    : { start: reader.at, kind: "array", items: [] };
  reader.at++;
  for (blank(reader); text[reader.at] !== (keyed ? "}" : "]"); blank(reader)) {
    if (text[reader.at] === ",") {
      reader.at++;
      continue;
    }
    const start = reader.at;
    const value = readValue(reader);
    if (!keyed) {
      node.items.push(value);
      continue;
    }
    blank(reader);
    reader.at++; // the colon
    blank(reader);
    node.members.push({ key: JSON.parse(text.slice(start, value.end)), start, node: readValue(reader) });
  }
  node.end = ++reader.at;
  return node;
}

export const pointerOf = (...keys) =>
  keys.map((key) => `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
const keysOf = (pointer) =>
  pointer === ""
    ? []
    : pointer
        .slice(1)
        .split("/")
        .map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));

function step(node, key) {
  if (node?.kind === "object") return node.members.find((member) => member.key === key)?.node || null;
  return node?.kind === "array" ? node.items[Number(key)] || null : null;
}
const find = (root, keys) => keys.reduce(step, root);

/* The value at a pointer; undefined where there is none. */
export function valueAt(text, pointer) {
  const node = find(readJson(text), keysOf(pointer));
  return node ? JSON.parse(text.slice(node.start, node.end)) : undefined;
}

const splice = (text, start, end, put) => text.slice(0, start) + put + text.slice(end);
const inside = (node) =>
  node.kind === "object" ? node.members.map((m) => ({ start: m.start, end: m.node.end })) : node.items || [];

function indentOf(text, at) {
  const line = text.lastIndexOf("\n", at - 1) + 1;
  return /^[ \t]*/.exec(text.slice(line, at))[0];
}

/* Behind the last member: on a line of its own where the others have one. */
function insert(text, node, put) {
  const parts = inside(node);
  const last = parts.at(-1);
  if (last) {
    const gap = text.slice(node.start + 1, parts[0].start);
    return splice(text, last.end, last.end, `,${gap.includes("\n") ? gap.slice(gap.lastIndexOf("\n")) : " "}${put}`);
  }
  const outer = indentOf(text, node.start);
  const line = node.kind === "object" && text.includes("\n");
  return splice(text, node.start + 1, node.end - 1, line ? `\n${outer}  ${put}\n${outer}` : put);
}

/* On one line, with spaces as people write it. */
export function oneLine(value) {
  if (Array.isArray(value)) return `[${value.map(oneLine).join(", ")}]`;
  if (value && typeof value === "object")
    return `{${Object.entries(value)
      .map(([key, v]) => `${JSON.stringify(key)}: ${oneLine(v)}`)
      .join(", ")}}`;
  return JSON.stringify(value);
}

/* The text with the value at a pointer; what is missing on the way is made. A text that is no JSON stays as it is. */
export function setValue(text, pointer, value) {
  const root = readJson(text);
  if (!root) return text;
  const keys = keysOf(pointer);
  let node = root,
    depth = 0;
  for (let next; depth < keys.length && (next = step(node, keys[depth])); depth++) node = next;
  if (depth === keys.length) {
    const put = oneLine(value);
    return text.slice(node.start, node.end) === put ? text : splice(text, node.start, node.end, put);
  }
  if (node.kind === "plain") return splice(text, node.start, node.end, oneLine(nested(keys.slice(depth), value)));
  const deep = nested(keys.slice(depth + 1), value);
  return insert(
    text,
    node,
    node.kind === "object" ? `${JSON.stringify(keys[depth])}: ${oneLine(deep)}` : oneLine(deep),
  );
}
const nested = (keys, value) => keys.reduceRight((inner, key) => ({ [key]: inner }), value);

/* The text without the value at a pointer. */
export function removeValue(text, pointer) {
  const keys = keysOf(pointer);
  const parent = find(readJson(text), keys.slice(0, -1));
  if (!parent || parent.kind === "plain") return text;
  const key = keys.at(-1);
  const index = parent.kind === "object" ? parent.members.findIndex((m) => m.key === key) : Number(key);
  const parts = inside(parent);
  if (!parts[index]) return text;
  if (index + 1 < parts.length) return splice(text, parts[index].start, parts[index + 1].start, "");
  return splice(
    text,
    index > 0 ? parts[index - 1].end : parent.start + 1,
    index > 0 ? parts[index].end : parent.end - 1,
    "",
  );
}

/* Whether its other name is free: the text with a member's key changed, its place and value kept. */
export function renameKey(text, pointer, key) {
  const keys = keysOf(pointer);
  const parent = find(readJson(text), keys.slice(0, -1));
  const member = parent?.members?.find((m) => m.key === keys.at(-1));
  if (!member || parent.members.some((m) => m.key === key)) return text;
  const old = readValue({ text, at: member.start });
  return splice(text, old.start, old.end, JSON.stringify(key));
}
