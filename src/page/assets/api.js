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
  answer(await reach(path, { method: "POST", signal, headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) }));

export const name = encodeURIComponent;

/* The finishes and woods, read once. */
const read = new Map();
export function once(path) {
  if (!read.has(path)) read.set(path, get(path).catch((refused) => (read.delete(path), Promise.reject(refused))));
  return read.get(path);
}

/* The server's clock, which a test may hold: the time that passed here is added. A clock that stands still is told by --now. */
let ahead = 0;
export function setClock(now) {
  const there = Date.parse(now);
  if (!Number.isNaN(there)) ahead = there - Date.now();
}
export const clock = () => Date.now() + ahead;

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
