// The page of a preview: shows one sheet, what was found, and where a mark comes from. It asks the
// program for all of it, and again whenever the program says that the job was drawn anew.
"use strict";

const byId = (id) => document.getElementById(id);
const board = byId("board");

let state = { number: 0, sheets: [], findings: [], current: true };
let shown = "";      // number of the sheet on the board
let chosen = "";     // what the chosen marks show
let chosenPlace = null;
let view = null;     // part of the sheet in sight: x, y, width, height in points
let paper = null;    // the whole sheet

// ---- Asking the program --------------------------------------------------------------------

async function asked(path) {
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(await answer.text());
  return answer;
}

async function refresh() {
  // The sheet in sight comes along with the state, since it is most likely still there.
  const earlyNumber = shown;
  const early = shown ? sheetText(shown) : null;
  early?.catch(() => {}); // told below, if it is still wanted
  state = await (await asked("state.json")).json();
  document.title = (state.project || state.file) + " – preview";
  byId("project").textContent = state.project || state.file;
  board.classList.toggle("old", !state.current);
  if (!state.sheets.some((sheet) => sheet.number === shown)) {
    shown = wanted();
    view = null;
  }
  listSheets();
  await showSheet(shown === earlyNumber ? early : null);
  listFindings();
  tellStatus();
  if (chosen) await choose(chosen);
}

const wanted = () => {
  const named = decodeURIComponent(location.hash.slice(1));
  const known = state.sheets.find((sheet) => sheet.number === named) || state.sheets[0];
  return known ? known.number : "";
};

function listen() {
  const changes = new EventSource("changes");
  changes.onmessage = () => refresh().catch(tellFault);
  changes.onerror = () => tellGone();
}

// ---- Words ---------------------------------------------------------------------------------

function element(name, words, className) {
  const made = document.createElement(name);
  if (words !== undefined) made.textContent = words;
  if (className) made.className = className;
  return made;
}

function tellStatus() {
  const status = byId("status");
  const clock = new Date().toLocaleTimeString();
  const plural = (count, what) => `${count} ${what}${count === 1 ? "" : "s"}`;
  status.classList.remove("gone");
  status.textContent = state.current
    ? `${state.file}: ${plural(state.sheets.length, "sheet")}, read at ${clock}`
    : `${state.file} cannot be drawn as it stands (read at ${clock}). ` +
      (state.sheets.length ? "The sheets shown are those of before." : "");
}

function tellGone() {
  byId("status").classList.add("gone");
  byId("status").textContent = "The preview has ended, or cannot be reached. What is shown may be old.";
}

function tellFault(fault) {
  byId("status").classList.add("gone");
  byId("status").textContent = fault.message;
}

// ---- Sheets --------------------------------------------------------------------------------

function listSheets() {
  byId("sheets").replaceChildren(...state.sheets.map((sheet) => {
    const button = element("button");
    button.append(element("b", sheet.number), element("span", sheet.title));
    if (sheet.number === shown) button.setAttribute("aria-current", "page");
    button.addEventListener("click", () => turnTo(sheet.number));
    const item = element("li");
    item.append(button);
    return item;
  }));
}

function turnTo(number) {
  if (number === shown) return;
  shown = number;
  view = null;
  history.replaceState(null, "", "#" + encodeURIComponent(number));
  for (const button of byId("sheets").querySelectorAll("button")) {
    const here = button.firstChild.textContent === number;
    button.toggleAttribute("aria-current", here);
    if (here) {
      button.setAttribute("aria-current", "page");
      button.scrollIntoView({ block: "nearest" });
    }
  }
  showSheet().catch(tellFault);
}

function turnBy(step) {
  const at = state.sheets.findIndex((sheet) => sheet.number === shown) + step;
  if (state.sheets[at]) turnTo(state.sheets[at].number);
}

const sheetText = async (number) =>
  (await asked(`sheets/${encodeURIComponent(number)}.svg`)).text();

async function showSheet(early = null) {
  byId("empty").hidden = shown !== "";
  if (!shown) return;
  const number = shown;
  const text = await (early || sheetText(number));
  if (number !== shown) return; // turned on meanwhile
  const sheet = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  const box = sheet.getAttribute("viewBox").split(" ").map(Number);
  const whole = { x: box[0], y: box[1], width: box[2], height: box[3] };
  if (!paper || paper.width !== whole.width || paper.height !== whole.height) view = null;
  paper = whole;
  sheet.removeAttribute("width");
  sheet.removeAttribute("height");
  sheet.setAttribute("aria-label", `${number} ${sheet.querySelector("title").textContent}`);
  sheet.setAttribute("role", "img");
  board.querySelector("svg")?.remove();
  board.append(document.adoptNode(sheet));
  look(view || wholeSheet());
  listMarks();
  markChosen();
}

function listMarks() {
  const shows = new Set();
  for (const mark of board.querySelectorAll("[data-shows]")) shows.add(mark.dataset.shows);
  const inOrder = [...shows].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  const select = byId("marks");
  select.replaceChildren(new Option("–", ""), ...inOrder.map((name) => new Option(inWords(name), name)));
  choiceInList();
}

function choiceInList() {
  const select = byId("marks");
  const listed = [...select.options].some((option) => option.value === chosen);
  select.value = listed ? chosen : "";
}

// "circuit:C3" as it is said.
const inWords = (name) => name.replace(":", " ").replaceAll("_", " ");

// ---- Near and far --------------------------------------------------------------------------

function wholeSheet() {
  const margin = paper.width * 0.015;
  return { x: -margin, y: -margin, width: paper.width + 2 * margin, height: paper.height + 2 * margin };
}

function look(at) {
  const nearest = paper.width / 60;
  const farthest = paper.width * 2;
  const scale = Math.min(Math.max(at.width, nearest), farthest) / at.width;
  view = {
    x: at.x + at.width * (1 - scale) / 2, y: at.y + at.height * (1 - scale) / 2,
    width: at.width * scale, height: at.height * scale,
  };
  // The middle of what is in sight stays on the paper.
  view.x = Math.min(Math.max(view.x, -view.width / 2), paper.width - view.width / 2);
  view.y = Math.min(Math.max(view.y, -view.height / 2), paper.height - view.height / 2);
  board.querySelector("svg")?.setAttribute("viewBox", `${view.x} ${view.y} ${view.width} ${view.height}`);
}

// The point of the sheet under a place of the window.
function onPaper(event) {
  const svg = board.querySelector("svg");
  return new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
}

function zoom(by, around) {
  if (!view) return;
  const fixed = around || { x: view.x + view.width / 2, y: view.y + view.height / 2 };
  const width = Math.min(Math.max(view.width / by, paper.width / 60), paper.width * 2);
  by = view.width / width;
  look({
    x: fixed.x - (fixed.x - view.x) / by, y: fixed.y - (fixed.y - view.y) / by,
    width: view.width / by, height: view.height / by,
  });
}

const move = (x, y) => view && look({ ...view, x: view.x + x * view.width, y: view.y + y * view.height });

board.addEventListener("wheel", (event) => {
  event.preventDefault();
  if (view) zoom(Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.0016)), onPaper(event));
}, { passive: false });

let held = null;
board.addEventListener("pointerdown", (event) => {
  if (event.button !== 0 || !view) return;
  held = { from: onPaper(event), x: event.clientX, y: event.clientY, moved: false };
});
addEventListener("pointermove", (event) => {
  if (!held) return;
  held.moved ||= Math.hypot(event.clientX - held.x, event.clientY - held.y) > 4;
  if (!held.moved) return;
  board.classList.add("held");
  const to = onPaper(event);
  look({ ...view, x: view.x + held.from.x - to.x, y: view.y + held.from.y - to.y });
});
addEventListener("pointerup", (event) => {
  const click = held && !held.moved;
  held = null;
  board.classList.remove("held");
  if (click) choose(markUnder(event));
});
board.addEventListener("click", (event) => event.target.closest("a") && event.preventDefault());

// A line is thinner than a hand is steady.
function markUnder(event) {
  for (const [x, y] of [[0, 0], [3, 0], [-3, 0], [0, 3], [0, -3], [5, 5], [-5, 5], [5, -5], [-5, -5]]) {
    const under = document.elementFromPoint(event.clientX + x, event.clientY + y);
    const mark = under && board.contains(under) && under.closest("[data-shows]");
    if (mark) return mark.dataset.shows;
  }
  return "";
}

// ---- Origins -------------------------------------------------------------------------------

function markChosen() {
  for (const mark of board.querySelectorAll("[data-shows]")) {
    mark.classList.toggle("chosen", chosen !== "" && mark.dataset.shows === chosen);
  }
}

async function choose(name, place) {
  chosen = name || "";
  chosenPlace = place || null;
  markChosen();
  choiceInList();
  await showOrigin();
}

function sourceTable(place) {
  const table = element("table", undefined, "source");
  table.append(element("caption", `${place.file}, line ${place.line}`));
  for (const line of place.lines) {
    const row = element("tr", undefined, line.number === place.line ? "here" : "");
    row.append(element("td", line.number), element("td", line.text));
    table.append(row);
  }
  return table;
}

// Lines of a terminal, narrower: what does not fit goes on beneath its own beginning.
function linesSet(text) {
  return text.trimEnd().split("\n").map((line) => {
    const indent = line.match(/^ *(- )?/)[0].length + (line.startsWith(" ") ? 0 : 2);
    const set = element("span", line);
    set.style.paddingLeft = `${indent}ch`;
    set.style.textIndent = `-${indent}ch`;
    return set;
  });
}

async function showOrigin() {
  const name = chosen;
  const told = name ? await (await asked(`origin.json?of=${encodeURIComponent(name)}`)).json() : {};
  if (name !== chosen) return;
  const place = chosenPlace || told.place;
  const nothing = name && !place && !told.derivation;
  byId("origin-of").textContent = name ? `Origin of ${inWords(name)}` : "Origin";
  byId("keys").hidden = Boolean(name || place);
  byId("place").replaceChildren(...(place ? [sourceTable(place)] : []));
  if (nothing) byId("place").append(element("p", "Nothing was derived for it, and it has no line of its own.", "where"));
  byId("derivation").replaceChildren(...linesSet(told.derivation || ""));
  byId("derivation").hidden = !told.derivation;
  byId("origin").scrollTop = 0;
}

byId("marks").addEventListener("change", (event) => choose(event.target.value).catch(tellFault));

// ---- Findings ------------------------------------------------------------------------------

function listFindings() {
  const count = state.findings.length;
  byId("count").textContent = count === 0 ? "No findings" : `${count} finding${count === 1 ? "" : "s"}`;
  byId("list").replaceChildren(...state.findings.map((finding) => {
    const button = element("button", undefined, finding.severity);
    button.append(element("span", finding.severity, "grade"), " " + finding.message);
    const more = (words) => words && button.append(element("span", words, "more"));
    more(finding.expected && `Right would be: ${finding.expected}`);
    more(finding.hint);
    for (const remedy of finding.remedies) more(`${remedy.change}: ${remedy.consequence}`);
    more([finding.section, finding.place && `line ${finding.place.line}`].filter(Boolean).join(", "));
    button.addEventListener("click", () => choose(finding.subject, finding.place).catch(tellFault));
    const item = element("li");
    item.append(button);
    return item;
  }));
}

// ---- Keys and light ------------------------------------------------------------------------

const keys = {
  PageUp: () => turnBy(-1), PageDown: () => turnBy(1),
  "+": () => zoom(1.25), "=": () => zoom(1.25), "-": () => zoom(0.8), "0": () => view && look(wholeSheet()),
  l: () => light(), Escape: () => choose("").catch(tellFault),
};
const arrows = {
  ArrowLeft: () => move(-0.1, 0), ArrowRight: () => move(0.1, 0),
  ArrowUp: () => move(0, -0.1), ArrowDown: () => move(0, 0.1),
};
addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey || event.target.matches("select")) return;
  const act = keys[event.key] || (event.target === board ? arrows[event.key] : undefined);
  if (act) {
    event.preventDefault();
    act();
  }
});

function light(dark = !document.documentElement.classList.contains("dark")) {
  document.documentElement.classList.toggle("dark", dark);
  byId("light").setAttribute("aria-pressed", String(dark));
}
light(matchMedia("(prefers-color-scheme: dark)").matches);

byId("before").addEventListener("click", () => turnBy(-1));
byId("after").addEventListener("click", () => turnBy(1));
byId("nearer").addEventListener("click", () => zoom(1.25));
byId("farther").addEventListener("click", () => zoom(0.8));
byId("whole").addEventListener("click", () => view && look(wholeSheet()));
byId("light").addEventListener("click", () => light());
addEventListener("hashchange", () => state.sheets.length && turnTo(wanted()));

listen();
