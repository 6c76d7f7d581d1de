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
  const d = Math.floor(whole / 1440),
    hours = Math.floor((whole % 1440) / 60),
    rest = whole % 60;
  const parts = [d && `${d} d`, hours && `${hours} h`, rest && `${rest} min`].filter(Boolean);
  return parts.join(" ") || "0 min";
}
/* Hours of work are never days of them. */
export function hours(minutes) {
  const whole = Math.round(minutes),
    h = Math.floor(whole / 60),
    rest = whole % 60;
  return [h && `${h} h`, (rest || !h) && `${rest} min`].filter(Boolean).join(" ");
}

const three = (value) => (value === 0 ? "0" : Number(value.toPrecision(3)).toString());
const FT2 = 10.76391041671,
  FL_OZ = 29.5735295625,
  QT = 946.352946;
export function area(m2, us) {
  return us ? `${three(m2 * FT2)} ft²` : m2 < 0.01 ? `${three(m2 * 1e4)} cm²` : `${m2.toFixed(2)} m²`;
}
export function volume(ml, us) {
  if (us) return ml >= QT ? `${three(ml / QT)} qt` : `${three(ml / FL_OZ)} fl oz`;
  return ml >= 1000 ? `${three(ml / 1000)} L` : `${three(ml)} ml`;
}
export const grams = (g) => `${Number(g.toFixed(1))} g`;

export const STATES = {
  "dust-free": "dust-free",
  handle: "dry to handle",
  recoat: "dry to recoat",
  sand: "dry to sand",
  wrap: "safe to wrap",
  "light-use": "light use",
  cured: "fully cured",
};
export const TOOLS = [
  "cloth",
  "brush",
  "foam-brush",
  "pad",
  "squeegee",
  "roller",
  "rubber",
  "hvlp",
  "conventional",
  "airless",
  "dip",
  "pour",
];
export const BEFORE = { "step done": "the step before is done", waited: "the wait is over" };

/* "coat 1 of 3, Danish oil" at the beginning of a line. */
export const heading = (words) => words.slice(0, 1).toUpperCase() + words.slice(1);
/* A step's id is piece/schedule/coat and side/what, or task/what. */
export function sideOf(id) {
  const coat = id.split("/")[2] || "";
  return coat.endsWith("b") ? "back" : coat.endsWith("f") ? "face" : "";
}
export const coatOf = (id) =>
  `coat ${parseInt(id.split("/")[2], 10)} of ${id.split("/")[1]} on ${[id.split("/")[0], sideOf(id)].filter(Boolean).join(", ")}`;
export const toolWords = (tool) => (tool === "hvlp" ? "HVLP" : tool === "conventional" ? "conventional gun" : tool);

/* The sentence of a mistake. */
export function mistakeWords(error) {
  if (error.expected && error.found) return `Expected ${error.expected}, found ${error.found}.`;
  return error.expected ? `Expected ${error.expected}.` : error.found || error.message || error.text || "";
}
