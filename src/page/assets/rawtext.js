/* Any file of the job as its text, for what the forms do not cover, and its earlier versions. */
import { h, fill, button, labelled, choice, ask, say } from "/assets/dom.js";
import { get, name } from "/assets/api.js";
import { when, mistakeWords } from "/assets/words.js";

export function textSection(draft, mistakes, wanted) {
  const files = Object.keys(draft.texts).filter((key) => draft.texts[key].editable !== false);
  const pick = labelled(
    "File",
    choice(
      files.map((f) => [f, f]),
      files.includes(wanted) ? wanted : files[0],
    ),
  );
  const area = h("textarea", { class: "code", rows: 24, spellcheck: "false", "aria-label": "Text of the file" });
  const wrong = h("ul", { class: "wrong", "aria-live": "polite" });
  const versions = h("div", {});
  const open = () => {
    mistakes.clear();
    area.value = draft.text(pick.field.value);
    fill(versions);
    let told = [];
    mistakes.table(pick.field.value, (error) => {
      if (!error) return (fill(((told = []), wrong)), null);
      told.push(error);
      return () =>
        fill(
          wrong,
          told.map((e) =>
            h(
              "li",
              {},
              button(`Line ${e.line || 1}`, () => goTo(area, e), { class: "small" }),
              " ",
              mistakeWords(e),
            ),
          ),
        );
    });
    draft.tell("state");
  };
  area.addEventListener("input", () => draft.set(pick.field.value, area.value));
  pick.field.addEventListener("change", open);
  const section = h(
    "section",
    {},
    pick,
    area,
    wrong,
    h(
      "div",
      { class: "row" },
      button("Earlier versions", () => showVersions(draft, pick.field.value, versions, open)),
    ),
    versions,
  );
  open();
  return section;
}

function goTo(area, error) {
  const lines = area.value.split("\n");
  const at = lines.slice(0, Math.max(0, (error.line || 1) - 1)).reduce((sum, line) => sum + line.length + 1, 0);
  area.focus();
  area.setSelectionRange(at + Math.max(0, (error.column || 1) - 1), at + (lines[(error.line || 1) - 1] || "").length);
}

async function showVersions(draft, of, node, open) {
  try {
    const list = await get(`/api/versions/${name(draft.file)}?of=${name(of)}`);
    fill(
      node,
      list.length
        ? h(
            "ul",
            { class: "plain" },
            list.map((v) =>
              h(
                "li",
                {},
                when(v.when),
                ` (${v.size} bytes) `,
                button(
                  "Show",
                  async () => {
                    const old = await get(`/api/version/${name(draft.file)}?of=${name(of)}&version=${name(v.version)}`);
                    const answer = await ask(`${of}, ${when(v.when)}`, h("pre", { tabindex: "0" }, old.text), [
                      ["take", "Take this text"],
                      ["", "Close", "quiet"],
                    ]);
                    if (answer === "take") (draft.set(of, old.text), open());
                  },
                  { class: "small", "aria-label": `Show the version of ${when(v.when)}` },
                ),
              ),
            ),
          )
        : h("p", {}, "There is no earlier version yet."),
    );
  } catch (refused) {
    say(refused.message);
  }
}
