/* Moments, amounts and names of work, as the reports of the program write them. */

const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/* Moments come with their offset: their digits are the shop's wall clock, whatever the zone of this screen. */
export const clockTime = (moment) => moment.slice(11, 16);
export function day(moment) {
  const [year, month, date] = moment.slice(0, 10).split("-").map(Number);
  return `${DAYS[new Date(Date.UTC(year, month - 1, date)).getUTCDay()]} ${date} ${MONTHS[month - 1]}`;
}
export const when = (moment) => `${day(moment)} ${clockTime(moment)}`;
/* The wall time, of the same offset as `like`, of a number of milliseconds. */
export function wall(ms, like) {
  const sign = like.match(/([+-])(\d\d):(\d\d)$/);
  const offset = sign ? (sign[1] === "-" ? -1 : 1) * (Number(sign[2]) * 60 + Number(sign[3])) : 0;
  return new Date(ms + offset * 60000).toISOString().slice(0, 16);
}

export function span(minutes) {
  const whole = Math.round(Math.abs(minutes));
  const d = Math.floor(whole / 1440), hours = Math.floor((whole % 1440) / 60), rest = whole % 60;
  const parts = [d && `${d} d`, hours && `${hours} h`, rest && `${rest} min`].filter(Boolean);
  return parts.join(" ") || "0 min";
}
/* Hours of work are never days of them. */
export function hours(minutes) {
  const whole = Math.round(minutes), h = Math.floor(whole / 60), rest = whole % 60;
  return [h && `${h} h`, (rest || !h) && `${rest} min`].filter(Boolean).join(" ");
}

const three = (value) => (value === 0 ? "0" : Number(value.toPrecision(3)).toString());
const FT2 = 10.76391041671, FL_OZ = 29.5735295625, QT = 946.352946;
export function area(m2, us) {
  return us ? `${three(m2 * FT2)} ft²` : m2 < 0.01 ? `${three(m2 * 1e4)} cm²` : `${m2.toFixed(2)} m²`;
}
export function volume(ml, us) {
  if (us) return ml >= QT ? `${three(ml / QT)} qt` : `${three(ml / FL_OZ)} fl oz`;
  return ml >= 1000 ? `${three(ml / 1000)} L` : `${three(ml)} ml`;
}
export const grams = (g) => `${Number(g.toFixed(1))} g`;

export const STATES = { "dust-free": "dust-free", handle: "dry to handle", recoat: "dry to recoat", sand: "dry to sand",
  wrap: "safe to wrap", "light-use": "light use", cured: "fully cured" };
export const TOOLS = ["cloth", "brush", "foam-brush", "pad", "squeegee", "roller", "rubber", "hvlp", "conventional", "airless",
  "dip", "pour"];
export const BEFORE = { "step done": "the step before is done", waited: "the wait is over" };

const plain = (slug) => slug.replaceAll("-", " ");
/* The parts of a step's id: piece/schedule/coat and side/what; a batch's: do/what/coat/number. */
function stepParts(id) {
  const parts = id.split("/");
  return parts[0] === "task" ? { task: plain(parts[1] || "") } :
    { coat: parseInt(parts[2], 10) || 0, side: /b$/.test(parts[2] || "") ? "back" : /f$/.test(parts[2] || "") ? "face" : "", what: parts[3] || "" };
}
export const sideOf = (id) => stepParts(id).side || "";

/* "coat 2, Danish oil", "sand 180": what a batch or step does. `names` are the finishes' names by id. */
export function doing(what, step, finish, names) {
  const of = stepParts(step);
  const grit = /-(\d+)$/.exec(of.what || "");
  switch (what) {
    case "apply": return `Coat ${of.coat}, ${names?.get(finish) || finish}`;
    case "sand": return grit ? `Sand ${grit[1]}` : "Sand";
    case "scuff": return grit ? `Scuff ${grit[1]}` : "Scuff";
    case "raise": return "Raise the grain";
    case "mask": return "Mask";
    case "flip": return "Turn over";
    case "polish": return "Polish";
    case "rub": return "Rub out";
    case "task": return of.task ? of.task[0].toUpperCase() + of.task.slice(1) : "Task";
    default: return what;
  }
}
export const batchWords = (batch, names) => {
  const step = batch.steps?.[0]?.id || batch.of?.[0]?.id || batch.id || "";
  return doing(batch.do, step.startsWith("task/") || batch.steps ? step : fromBatch(step), batch.finish, names);
};
/* A batch's id written as that of a step, where nothing else is known of it. */
function fromBatch(id) {
  const [what, of, coat] = id.split("/");
  return what === "task" ? `task/${of}` : `-/-/${coat || 0}/${what}-${of}`;
}
export const toolWords = (tool) => (tool === "hvlp" ? "HVLP" : tool === "conventional" ? "conventional gun" : tool);

/* The sentence of a mistake. */
export function mistakeWords(error) {
  if (error.expected && error.found) return `Expected ${error.expected}, found ${error.found}.`;
  return error.expected ? `Expected ${error.expected}.` : error.found || error.message || error.text || "";
}
