/* Elements from plain values. Whatever comes from a file goes in as text or as an attribute, never as markup. */

function put(node, name, value) {
  if (value === undefined || value === null || value === false) return;
  if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
  else if (name === "value" || name === "checked" || name === "selected") node[name] = value;
  else node.setAttribute(name, value === true ? "" : String(value));
}

/* h("p", {class: "note"}, "text", node, [more]): null and false are left out. */
export function h(tag, attributes, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) if (name !== "value") put(node, name, value);
  add(node, children);
  put(node, "value", attributes?.value); // a select needs its options first
  return node;
}

export function add(node, children) {
  for (const child of [children].flat(Infinity)) {
    if (child === undefined || child === null || child === false) continue;
    node.append(child instanceof Node ? child : String(child));
  }
  return node;
}

export function fill(node, ...children) {
  node.replaceChildren();
  return add(node, children);
}

export function button(text, act, attributes) {
  return h("button", { type: "button", onclick: act, ...attributes }, text);
}

/* What happened, for the eye and for a screen reader; with a button where it can be taken back. */
let quiet = null;
export function say(text, more) {
  const said = document.getElementById("said");
  clearTimeout(quiet);
  fill(said, text ? h("p", {}, text, more) : null);
  if (text) quiet = setTimeout(() => fill(said), more ? 20000 : 8000);
}

/* A label with its field, a hint below, and room for a mistake. */
let numbers = 0;
export function labelled(label, field, hint) {
  const id = `f${++numbers}`;
  field.id = id;
  const notes = [];
  const below = hint ? h("span", { class: "hint", id: `${id}-hint` }, hint) : null;
  if (below) notes.push(below.id);
  const wrong = h("span", { class: "wrong", id: `${id}-wrong` });
  notes.push(wrong.id);
  field.setAttribute("aria-describedby", notes.join(" "));
  const box = h("div", { class: "field" }, h("label", { for: id }, label), field, below, wrong);
  box.field = field;
  box.mistake = (text) => {
    wrong.textContent = text || "";
    if (text) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
  };
  return box;
}

export function choice(options, value, attributes) {
  const list = options.map((o) => (Array.isArray(o) ? o : [o, o]));
  if (value !== undefined && value !== null && !list.some(([key]) => key === value)) list.push([value, value]);
  return h(
    "select",
    { ...attributes, value },
    list.map(([key, text]) => h("option", { value: key }, text)),
  );
}

/* Suggestions for text fields, one list for the whole page. */
export function suggestions(id, values) {
  let list = document.getElementById(id);
  if (!list) {
    list = h("datalist", { id });
    document.body.append(list);
  }
  fill(
    list,
    values.map((value) => (Array.isArray(value) ? h("option", { value: value[0] }, value[1]) : h("option", { value }))),
  );
  return id;
}

/* Calls `act` when nothing was asked for `ms`. */
export function soon(act, ms) {
  let timer = null;
  return (...given) => {
    clearTimeout(timer);
    timer = setTimeout(() => act(...given), ms);
  };
}

/* A question over the page; gives the key of the button, or null where it was closed. */
export function ask(title, body, answers) {
  return new Promise((settle) => {
    const box = h(
      "dialog",
      { "aria-labelledby": "ask-title" },
      h("h2", { id: "ask-title" }, title),
      body,
      h(
        "div",
        { class: "row" },
        answers.map(([key, text, look]) => button(text, () => box.close(key), { class: look })),
      ),
    );
    box.addEventListener("close", () => {
      box.remove();
      settle(box.returnValue || null);
    });
    document.body.append(box);
    box.showModal();
  });
}
