/* A mixing card: what to weigh, large; once it is stirred it counts down to the moment by which it must be applied. Where more was
 * poured than it says, the rest is computed anew. */
import { h, fill, button, labelled, choice, say } from "/assets/dom.js";
import { post, clock } from "/assets/api.js";
import { clockTime, volume, grams, wall } from "/assets/words.js";

const STIRRED_MIN = 5,
  MINUTE = 60000;
const TELL_AT = [15, 5, 0];

export function mixCard(mix, at) {
  const node = h("section", { class: "mix", "aria-label": "Mixing card" });
  const kept = read(at.key);
  const card = { mix: kept?.mix || mix, planned: mix, at, node, stirred: kept?.stirred || null };
  draw(card);
  return node;
}

/* What was stirred is kept on this phone, so that the count goes on when the page is opened again. */
function read(key) {
  try {
    return JSON.parse(localStorage.getItem(`mix ${key}`));
  } catch {
    return null;
  }
}
const keep = (card) =>
  localStorage.setItem(`mix ${card.at.key}`, JSON.stringify({ mix: card.mix, stirred: card.stirred }));

function draw(card) {
  const { mix, planned, at } = card;
  fill(
    card.node,
    h("p", { class: "mixname" }, at.names.get(planned.finish) || planned.finish, ": ", volume(mix.volume_ml, at.us)),
    clockOf(card),
    h(
      "table",
      { class: "weigh" },
      h("caption", { class: "hidden" }, "What to weigh"),
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          h("th", { scope: "col" }, "pour"),
          h("th", { scope: "col" }, "weigh"),
          h("th", { scope: "col" }, "scale shows"),
        ),
      ),
      h("tbody", {}, rows(mix.components)),
    ),
    h(
      "div",
      { class: "row" },
      button(card.stirred ? "Stirred anew" : "Stirred now", () => stir(card), { class: "big" }),
      tooMuch(card),
    ),
  );
}

function rows(components) {
  let sum = 0;
  return components.map((c) => {
    sum += c.weigh_g;
    return h(
      "tr",
      {},
      h("th", { scope: "row" }, c.component),
      h("td", {}, grams(c.weigh_g)),
      h("td", { class: "sum" }, grams(sum)),
    );
  });
}

/* From stirring to the moment by which it is applied. */
const lasts = (planned) =>
  planned.apply_by && planned.mixed_at
    ? Date.parse(planned.apply_by) - Date.parse(planned.mixed_at) - STIRRED_MIN * MINUTE
    : null;

function clockOf(card) {
  const { planned } = card;
  const length = lasts(planned);
  if (length === null) return h("p", { class: "sub" }, "It does not go off in the cup.");
  const told = h("p", { class: "hidden", role: "status", "aria-live": "assertive" });
  const end = card.stirred ? card.stirred + length : Date.parse(planned.apply_by);
  const left = h("span", { class: "left" });
  const shown = h("p", { class: "applyby" }, "Apply by ", h("strong", {}, wall(end, planned.apply_by).slice(11)), left);
  if (!card.stirred)
    return h("div", {}, shown, h("p", { class: "sub" }, `as planned, mixed at ${clockTime(planned.mixed_at)}`));
  let last = Infinity;
  const tick = () => {
    const rest = Math.ceil((end - clock()) / 1000),
      minutes = rest / 60;
    left.textContent =
      rest > 0
        ? `${Math.floor(rest / 3600) ? `${Math.floor(rest / 3600)} h ` : ""}${Math.floor((rest % 3600) / 60)} min ${String(rest % 60).padStart(2, "0")} s left`
        : "over: do not apply it any more";
    shown.classList.toggle("soon", minutes <= TELL_AT[0] && rest > 0);
    shown.classList.toggle("over", rest <= 0);
    const due = TELL_AT.find((m) => minutes <= m && last > m);
    if (due !== undefined) tell(told, due);
    last = minutes;
  };
  tick();
  card.at.timers.push(setInterval(tick, 1000));
  return h("div", {}, shown, told);
}

function tell(told, minutes) {
  told.textContent = minutes ? `${minutes} minutes left to apply the mix.` : "The time to apply this mix is over.";
  navigator.vibrate?.(minutes ? 200 : [200, 100, 200]);
}

function stir(card) {
  card.stirred = clock();
  keep(card);
  draw(card);
  card.node.querySelector("button")?.focus();
}

function tooMuch(card) {
  if (card.planned.components.length < 2) return null;
  const pick = labelled("Poured", choice(card.planned.components.map((c) => [c.component, c.component])));
  const amount = labelled("grams in the cup", h("input", { type: "text", inputmode: "decimal", autocomplete: "off" }));
  const form = h("form", { class: "pour" }, pick, amount, h("button", { type: "submit" }, "Work it out"));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    rescale(card, pick.field.value, amount);
  });
  return h("details", {}, h("summary", {}, "Poured too much?"), form);
}

const isThinner = (component) => component.component === "thinner";

async function rescale(card, component, amount) {
  const poured = Number(amount.field.value.replace(",", "."));
  const { planned } = card;
  const of = planned.components.find((c) => c.component === component);
  if (!(poured > 0)) return amount.mistake("Expected grams, such as 65");
  try {
    const thinner = planned.components.find(isThinner);
    const finish = planned.components.filter((c) => !isThinner(c)).reduce((sum, c) => sum + c.ml, 0);
    const want = { finish: planned.finish, thin: thinner ? `${(finish / thinner.ml).toFixed(3)}:1` : undefined };
    if (isThinner(of)) want.amount = `${((planned.volume_ml * poured) / of.g).toFixed(2)} ml`;
    else want.have = `${component} ${poured} g`;
    const { mixes } = await post("/api/mix", want);
    card.mix = { ...mixes[0], volume_ml: mixes[0].volume_ml };
    keep(card);
    draw(card);
    say(
      `Now pour ${mixes[0].components
        .filter((c) => c.component !== component)
        .map((c) => `${grams(c.weigh_g)} of ${c.component}`)
        .join(", ")}.`,
    );
  } catch (refused) {
    amount.mistake(refused.message);
  }
}
