/* What the server is asked. A refusal is an Error whose message is the server's sentence. */

async function answer(response) {
  const type = response.headers.get("content-type") || "";
  const body = type.startsWith("application/json") ? await response.json() : { error: await response.text() };
  if (response.ok) return body;
  const refused = new Error(body.error || `The server answered ${response.status}.`);
  refused.status = response.status;
  refused.body = body;
  throw refused;
}

async function reach(path, options) {
  try {
    return await fetch(path, options);
  } catch (gone) {
    if (gone.name === "AbortError") throw gone;
    throw new Error("The server does not answer. Is coatwright serve still running?");
  }
}

export const get = async (path, signal) => answer(await reach(path, { signal, cache: "no-store" }));

export const post = async (path, body, signal) =>
  answer(
    await reach(path, {
      method: "POST",
      signal,
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(body),
    }),
  );

export const name = encodeURIComponent;

/* Bytes of a file as text: UTF-16 by its mark, UTF-8, else Windows-1252. */
export function decoded(bytes) {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

export const isSheet = (fileName) => /\.(xlsx|ods)$/i.test(fileName);
/* Bytes as base64 (RFC 4648), as JSON can carry them. */
export const base64 = (bytes) => btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join(""));

/* The finishes and woods, read once. */
const read = new Map();
export function once(path) {
  if (!read.has(path))
    read.set(
      path,
      get(path).catch((refused) => (read.delete(path), Promise.reject(refused))),
    );
  return read.get(path);
}

/* The server's clock as it was when the page was opened, and the time that passed since. `like`: a moment of the shop, whose offset holds
 * where the server says none. */
let ahead = null;
export function setClock(now, like = "") {
  const offset = /([+-]\d\d:\d\d|Z)$/;
  const there = Date.parse(
    offset.test(now) ? now : `${now.replace(" ", "T")}${now.length > 10 ? offset.exec(like)?.[0] || "Z" : ""}`,
  );
  if (ahead === null && !Number.isNaN(there)) ahead = there - Date.now();
}
export const clock = () => Date.now() + (ahead || 0);

/* Calls `changed(file)` when somebody changed something. */
export function follow(changed) {
  const events = new EventSource("/events");
  events.addEventListener("changed", (event) => {
    try {
      changed(JSON.parse(event.data).file);
    } catch {
      changed(null);
    }
  });
  return events;
}
