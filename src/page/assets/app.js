/* Which screen is shown: #/, #/new, #/job/FILE/TAB, #/plan/FILE, #/bench/FILE. Each gives {changed(file), stop()}: what it does when
 * somebody changed a file, and when it is left. */
import { h, fill, say } from "/assets/dom.js";
import { follow } from "/assets/api.js";
import { homeScreen } from "/assets/home.js";
import { newScreen } from "/assets/new.js";
import { jobScreen, unsaved } from "/assets/job.js";
import { planScreen } from "/assets/plan.js";
import { benchScreen } from "/assets/bench.js";

const SCREENS = { "": homeScreen, new: newScreen, job: jobScreen, plan: planScreen, bench: benchScreen };
const main = document.getElementById("main");
let screen = null,
  drawn = 0;

function drawNav(current, file) {
  const link = (href, text, key) => h("a", { href, "aria-current": key === current ? "page" : null }, text);
  fill(
    document.getElementById("nav"),
    link("#/", "Jobs", ""),
    link("#/new", "New job", "new"),
    file
      ? [
          link(`#/plan/${encodeURIComponent(file)}`, "Plan", "plan"),
          link(`#/job/${encodeURIComponent(file)}`, "Edit", "job"),
          link(`#/bench/${encodeURIComponent(file)}`, "Bench", "bench"),
        ]
      : null,
  );
}

async function draw(event) {
  const mine = ++drawn;
  const [, key = "", ...rest] = location.hash.split("/");
  const given = rest.map(decodeURIComponent);
  const show = SCREENS[key] || homeScreen;
  screen?.stop?.();
  screen = null;
  document.body.dataset.screen = key || "home";
  drawNav(key, ["job", "plan", "bench"].includes(key) ? given[0] : null);
  try {
    const next = await show(main, ...given);
    if (mine !== drawn) return next?.stop?.();
    screen = next;
    document.title = `${main.querySelector("h1")?.textContent || "Jobs"} - Coatwright`;
    if (event) (main.focus({ preventScroll: true }), scrollTo(0, 0));
  } catch (refused) {
    fill(
      main,
      h("h1", {}, "That did not work"),
      h("p", { class: "bad" }, refused.message),
      h("p", {}, h("a", { href: "#/" }, "To the jobs")),
    );
  }
  main.dataset.ready = location.hash || "#/";
}

addEventListener("hashchange", draw);
addEventListener("beforeunload", (event) => {
  if (unsaved()) event.preventDefault();
});
follow((file) => Promise.resolve(screen?.changed?.(file)).catch((refused) => say(refused.message)));
document.querySelector(".skip").addEventListener("click", (event) => {
  event.preventDefault();
  main.focus();
});
draw();
