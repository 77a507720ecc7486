// Runs a lesson in a frame beside its still text, says how far it is, and shows it when it is ready, without its code.
import {MyStand, ask} from "./my_stand.js";

const byId = id => document.getElementById(id);
const frame = byId("lesson"), code = byId("code"), whole = byId("notebook"), far = byId("far"), status = byId("status");
const time = byId("time"), still = byId("still"), mine = byId("mine");
const begun = performance.now(), seconds = () => Math.round((performance.now() - begun) / 1000);
const READY = "Ready: all of it runs on this device.", LATE = "It takes longer than last time.", LONG = 90, PATIENCE = 300;  // s

const tell = (text, share) => {
  status.textContent = text;
  from = share;
  move();
};
const until = async (what, patience = PATIENCE) => {
  for (const end = Date.now() + 1000 * patience; Date.now() < end;) {
    const found = what();
    if (found) return found;
    await new Promise(resolve => setTimeout(resolve, 100));
  }
  throw new Error("it takes too long");
};

// How far it is: by the steps that are done, and between them by the time that it took here last.
const own = `seconds ${location.pathname}`, last = Number(remember(own) ?? remember("seconds"));
const known = remember(own) ? `Last time it took ${last} s here.` : `Another lesson took ${last} s here.`;
let from = 0, step = "";
function remember(name, value) {
  try {
    if (value !== undefined) localStorage.setItem(name, value);
    return localStorage.getItem(name);
  } catch {
    return null;  // a browser that keeps nothing
  }
}
function move() {
  const now = seconds();
  far.value = Math.max(far.value, 100 * from, last ? Math.min(95, 95 * now / last) : 0);
  const guess = last && now > last + 2 ? LATE : last ? known : "The first time can take a minute.";
  time.textContent = `${step}${now} s. ${guess}`;
  if (now > LONG) byId("again").hidden = false;  // it goes on, but nobody has to wait for it
}
const clock = setInterval(move, 1000);

async function start() {
  if (typeof WebAssembly !== "object") throw new Error("this browser is too old");
  frame.hidden = false;
  frame.classList.add("starting");
  frame.src = frame.dataset.notebook;
  tell("The lesson is being loaded. You can read it meanwhile.", 0.05);
  const app = await until(() => frame.contentWindow.jupyterapp);
  const inside = frame.contentWindow;
  guard(inside);
  light(app, inside);
  tell("Python is being started in this browser. You can read meanwhile.", 0.2);
  await wake(app, new URL(frame.src).searchParams.get("path"));
  const panel = await until(() => app.shell.currentWidget);
  await panel.context.ready;
  const kernel = await until(() => panel.sessionContext.session?.kernel);
  await until(() => awake(kernel));
  const stand = offer(app);
  await join(stand, kernel);
  const stopped = await run(app, panel), changed = await isChanged(app, panel.context.path);
  stand.follow();
  reveal(panel, stopped, changed);
  panel.sessionContext.statusChanged.connect((_, now) => now.includes("restarting") && again(stand, kernel));
}

function awake(kernel) {
  if (kernel.status === "dead") throw new Error("Python stopped: perhaps this device has too little memory");
  return kernel.status === "idle";
}

// Python starts while the notebook is still being opened, which finds it by its path. The first hold on it is let go
// at once: the widgets of the page hear only over the notebook's own.
async function wake(app, path) {
  const {kernelspecs, sessions} = app.serviceManager;
  const name = await until(() => kernelspecs.specs?.default);
  (await sessions.startNew({path, name: path, type: "notebook", kernel: {name}})).dispose();
}

// A Python that was started anew from the notebook's menu gets its files again.
async function again(stand, kernel) {
  await until(() => awake(kernel));
  await join(stand, kernel);
}

async function join(stand, kernel) {
  await ask(kernel, `settle(${byId("files").textContent})`);
  await stand.join(kernel);
}

// Light or dark as the reader's device is; the drawings bring their own white ground.
function light(app, inside) {
  const dark = matchMedia("(prefers-color-scheme: dark)"), follow = () => {
    const theme = `JupyterLab ${dark.matches ? "Dark" : "Light"}`;
    if (inside.document.body.dataset.jpThemeName !== theme) app.commands.execute("apputils:change-theme", {theme});
  };
  dark.addEventListener("change", follow);
  app.restored.then(follow);
}

// A lesson is used, not edited: no key or double click changes its text or takes a cell away, as they do in a notebook.
function guard(inside) {
  const {document} = inside;
  const looks = Object.assign(document.createElement("link"), {rel: "stylesheet", href: new URL("../inside.css", location)});
  document.head.append(looks);
  document.body.classList.add("lesson", "without-code");
  const read = event => document.body.classList.contains("lesson")
    && !event.target.closest?.("input, textarea, select, [data-lm-suppress-shortcuts], .cm-content");
  const stop = event => read(event) && event.stopImmediatePropagation();
  for (const kind of ["keydown", "dblclick"]) inside.addEventListener(kind, stop, true);
  inside.addEventListener("beforeunload", event => event.stopImmediatePropagation(), true);
}

// From where the reader was, with links that lead to the lessons' pages, in words that fit a page that runs by itself.
function dress(inside, panel) {
  const {document} = inside;
  for (const each of document.querySelectorAll(".jp-RenderedMarkdown :is(p, li)")) {
    if (each.textContent.startsWith("Press Run")) each.classList.add("run-by-hand");
    const run = each.querySelector("strong");
    if (run?.textContent === "Run ▸ Run All Cells" && run.previousSibling?.textContent.endsWith("choose ")) {
      run.previousSibling.textContent = run.previousSibling.textContent.replace(/choose $/, "wait until it is ready");
      run.remove();
    }
  }
  document.addEventListener("click", event => {
    const link = event.target.closest?.("a[href]"), lesson = link?.href.match(/(\d\d_\w+)\.ipynb(#.*)?$/);
    const file = link?.textContent.match(/^\w+\.toml$/);
    if (!lesson && !file) return;
    event.preventDefault();
    event.stopPropagation();
    if (file) open(`../jupyter/files/notebooks/${file[0]}`);
    else location.href = lesson[2] === "#Contents" ? "../index.html" : `${lesson[1]}.html`;
  }, true);
}

// The heading that the reader has just passed, and how far it stands from the window's upper edge.
function place() {
  const edge = document.querySelector("header").getBoundingClientRect().bottom;
  const passed = [...still.querySelectorAll("h1, h2, h3, h4")].filter(each => each.getBoundingClientRect().top < edge + 40);
  const heading = scrollY > 0 && passed.at(-1);
  return heading ? {words: plain(heading), top: heading.getBoundingClientRect().top - edge} : null;
}

const plain = heading => heading.textContent.replace("¶", "").trim();

// There again, and with the keyboard's next step from there.
function go(place, panel) {
  const scroller = panel.content.node.querySelector(".jp-WindowedPanel-outer") ?? panel.content.node;
  scroller.scrollTo(0, 0);
  const found = place && [...scroller.querySelectorAll("h1, h2, h3, h4")].find(each => plain(each) === place.words);
  if (found) scroller.scrollTo(0, found.getBoundingClientRect().top - scroller.getBoundingClientRect().top - place.top);
  const {content} = panel, read = content.widgets.findIndex(cell => found && cell.node.contains(found));
  content.activeCellIndex = Math.max(read, 0);
  if (![document.body, frame].includes(document.activeElement)) return;  // the reader is at the bar
  frame.focus();
  content.activeCell.node.focus({preventScroll: true});
}

async function run(app, panel) {
  const all = [...panel.content.model.cells].filter(cell => cell.type === "code");
  const errors = [];
  let done = 0;
  tell("The lesson runs.", 0.5);
  const note = (_, message) => {
    if (message.header.msg_type === "execute_input") done += 1;
    if (message.header.msg_type === "error") errors.push(message.content.evalue);
    step = `Step ${Math.min(done, all.length)} of ${all.length}, `;
    from = 0.5 + Math.min(done, all.length) / all.length / 2;
    move();
  };
  panel.sessionContext.iopubMessage.connect(note);
  await app.commands.execute("notebook:run-all-cells");
  panel.sessionContext.iopubMessage.disconnect(note);
  const left = [...panel.content.model.cells].filter(cell => cell.type === "code" && !cell.executionCount).length;
  return left ? errors.at(-1) ?? "a step could not be run" : "";
}

// All at once: the lesson in the still one's place, its buttons, and how it went.
function reveal(panel, stopped, changed) {
  const inside = frame.contentWindow, was = place();
  clearInterval(clock);
  still.hidden = true;
  frame.classList.remove("starting");
  for (const each of [code, whole]) each.disabled = false;
  far.hidden = time.hidden = byId("again").hidden = true;
  panel.toolbar.hide();
  dress(inside, panel);
  inside.dispatchEvent(new Event("resize"));
  go(was, panel);
  if (stopped) wrong(`The lesson stopped: ${stopped}. Press Notebook to see where.`);
  else tell(changed ? "Ready: this is the notebook as it was changed and saved on this device." : READY, 1);
  if (changed) offerAsBuilt(panel.context.path);
  if (!stopped) for (const name of [own, "seconds"]) remember(name, seconds());
  document.body.dataset.ready = "yes";
}

// A notebook that was saved here stands in the built one's place, until somebody wants that back.
async function isChanged(app, path) {
  const built = await (await fetch(`../jupyter/files/${path}`)).json();
  return sources((await app.serviceManager.contents.get(path, {content: true})).content) !== sources(built);
}

function offerAsBuilt(path) {
  const back = byId("built");
  back.hidden = false;
  back.onclick = async () => {
    await frame.contentWindow.jupyterapp.serviceManager.contents.delete(path);
    location.reload();
  };
}

const sources = notebook => JSON.stringify(notebook.cells.map(each => [each.source].flat().join("")));

function wrong(text) {
  tell(text, 0);
  byId("again").hidden = false;
  far.hidden = time.hidden = true;
  clearInterval(clock);
}

const reached = () => fetch(location.href, {method: "HEAD", cache: "no-store"}).then(answer => answer.ok, () => false);

// Ends with an error when the pages cannot be reached any more before the lesson is ready.
async function lost() {
  for (let missed = 0; !document.body.dataset.ready && missed < 2;) {
    await new Promise(resolve => setTimeout(resolve, 5000));
    missed = await reached() ? 0 : missed + 1;
  }
  if (!document.body.dataset.ready) throw new Error("the network is gone");
}

// Why it did not start, and what to do, in plain words.
async function failed(error) {
  wrong(await reached() ? `The lesson could not be started: ${error.message}. Close other tabs, then try again. Meanwhile you can read.`
    : "These pages cannot be reached any more. Is this device still in the workshop's network? Then try again.");
}

code.addEventListener("click", () => {
  const hides = frame.contentDocument.body.classList.toggle("without-code");
  code.setAttribute("aria-pressed", String(!hides));
});

// The notebook proper, as it is running here: its menus and bars come back, and its cells can be changed and run.
whole.addEventListener("click", () => {
  const {body} = frame.contentDocument, shown = !body.classList.toggle("lesson");
  whole.setAttribute("aria-pressed", String(shown));
  body.classList.toggle("without-code", !shown);
  code.setAttribute("aria-pressed", "false");
  code.hidden = shown;
  const {toolbar} = frame.contentWindow.jupyterapp.shell.currentWidget;
  shown ? toolbar.show() : toolbar.hide();
  frame.contentWindow.dispatchEvent(new Event("resize"));
});
byId("again").addEventListener("click", () => location.reload());

// My stand's file on this device: to begin, to open, to take along, to forget.
function offer(app) {
  const [about, begin, open, chosen, taken, forget] = ["about", "begin", "open", "chosen", "taken", "forget"].map(byId);
  const stand = new MyStand(app.serviceManager.contents, (text, said) => {
    about.textContent = said || (text === null ? about.dataset.none : about.dataset.kept);
    if (said) mine.open = true;
    begin.hidden = text !== null;
    forget.hidden = taken.hidden = text === null;
    taken.href = text === null ? "" : `data:text/plain;charset=utf-8,${encodeURIComponent(text)}`;
  });
  const put = async (text, failure) => {
    const said = await stand.put(text);
    if (!said) return;
    about.textContent = `${failure} ${said}`;
    mine.open = true;
  };
  begin.onclick = async () => put(await (await fetch("../jupyter/files/notebooks/stand.toml")).text(), "");
  open.onclick = () => chosen.click();
  chosen.onchange = async () => {
    const [file] = chosen.files, known = stand.text !== null;
    if (file && (!known || confirm("There is a stand of yours on this device. Put the file in its place?")))
      await put(await file.text(), `${file.name} was not opened.`);
    chosen.value = "";
  };
  forget.onclick = () => {
    if (confirm("Forget my_stand.toml on this device? Download it first if you want to keep it.")) put(null, "");
  };
  mine.querySelector("summary").removeAttribute("aria-disabled");
  mine.addEventListener("keydown", event => event.key === "Escape" && (mine.open = false));
  addEventListener("blur", () => setTimeout(() => document.activeElement === frame && (mine.open = false)));
  document.addEventListener("click", event => mine.contains(event.target) || (mine.open = false));
  for (const each of [begin, open]) each.disabled = false;
  return stand;
}

Promise.race([start(), lost()]).catch(failed);
