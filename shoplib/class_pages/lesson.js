// Runs a lesson in a frame beside its still text, says how far it is, and shows it when it is ready, without its code.
const byId = id => document.getElementById(id);
const frame = byId("lesson"), code = byId("code"), far = byId("far"), status = byId("status"), still = byId("still");
const LOOKS = `
  #top-panel-wrapper, #menu-panel-wrapper, #spacer-widget-top, #spacer-widget-bottom, .jp-NotebookPanel-toolbar,
  .jp-Notebook-footer, .jp-Collapser, .jp-cell-toolbar, .jp-InputPrompt, .jp-OutputPrompt { display: none !important; }
  #main-panel { top: 0 !important; height: 100% !important; }
  .run-by-hand { display: none !important; }
  body.without-code .jp-CodeCell > .jp-Cell-inputWrapper { display: none !important; }
  .jp-Notebook { touch-action: pan-y; }
  .jp-OutputArea-output, .jp-RenderedMarkdown { padding-left: 12px !important; }`;

const tell = (text, share) => {
  status.textContent = text;
  far.value = 100 * share;
};
const until = async (what, seconds = 600) => {
  for (const end = Date.now() + 1000 * seconds; Date.now() < end;) {
    const found = what();
    if (found) return found;
    await new Promise(resolve => setTimeout(resolve, 100));
  }
  throw new Error("it takes too long");
};

async function start() {
  frame.hidden = false;
  frame.classList.add("starting");
  frame.src = frame.dataset.notebook;
  tell("The lesson's page is being loaded. You can read it meanwhile.", 0.05);
  const app = await until(() => frame.contentWindow.jupyterapp);
  const inside = frame.contentWindow;
  inside.addEventListener("beforeunload", event => event.stopImmediatePropagation(), true);
  const looks = inside.document.createElement("style");
  looks.textContent = LOOKS;
  inside.document.head.append(looks);
  inside.document.body.classList.add("without-code");
  tell("Python is being started in this browser. You can read meanwhile.", 0.2);
  const panel = await until(() => app.shell.currentWidget);
  await panel.context.ready;
  const kernel = await until(() => panel.sessionContext.session?.kernel);
  await until(() => kernel.status === "idle");
  await lay(kernel);
  await run(app, panel);
}

// The files that a lesson reads: without a service worker Python does not see those beside the notebook.
async function lay(kernel) {
  const texts = {};
  for (const name of frame.dataset.files.split(" ").filter(Boolean))
    texts[name] = await (await fetch(`../jupyter/files/notebooks/${name}`)).text();
  const code = `import json, pathlib
for name, text in json.loads(${JSON.stringify(JSON.stringify(texts))}).items():
    pathlib.Path(name).write_text(text, "utf-8")
del json, pathlib, name, text`;
  if (Object.keys(texts).length) await kernel.requestExecute({code, silent: true, store_history: false}).done;
}

// Without the bars of the notebook, from the top, with links that lead to the lessons' pages.
function dress(inside, panel) {
  panel.toolbar.hide();
  inside.dispatchEvent(new Event("resize"));
  for (const each of inside.document.querySelectorAll(".jp-RenderedMarkdown p"))
    if (each.textContent.startsWith("Press Run")) each.classList.add("run-by-hand");
  inside.document.addEventListener("click", event => {
    const link = event.target.closest?.("a[href]"), lesson = link?.href.match(/(\d\d_\w+)\.ipynb/);
    if (!lesson) return;
    event.preventDefault();
    event.stopPropagation();
    location.href = `${lesson[1]}.html`;
  }, true);
  panel.content.activeCellIndex = 0;
  panel.content.node.querySelector(".jp-WindowedPanel-outer")?.scrollTo(0, 0);
  panel.content.node.scrollTo(0, 0);
}

async function run(app, panel) {
  const inside = frame.contentWindow;
  const all = [...panel.content.model.cells].filter(cell => cell.type === "code");
  const errors = [];
  let done = 0;
  panel.sessionContext.iopubMessage.connect((_, message) => {
    if (message.header.msg_type === "execute_input") done += 1;
    if (message.header.msg_type === "error") errors.push(message.content.evalue);
    if (done <= all.length) tell(`The lesson runs: step ${done} of ${all.length}.`, 0.5 + done / all.length / 2);
  });
  await app.commands.execute("notebook:run-all-cells");
  still.hidden = true;
  frame.classList.remove("starting");
  code.disabled = false;
  far.hidden = true;
  dress(inside, panel);
  document.body.dataset.ready = "yes";
  const shown = [...panel.content.model.cells].filter(cell => cell.type === "code" && !cell.executionCount).length;
  tell(shown ? `The lesson stopped: ${errors.at(-1) ?? "a step could not be run"}. Open the notebook to see where.`
    : "Ready: all of it runs on this device.", 1);
}

code.addEventListener("click", () => {
  const hides = frame.contentDocument.body.classList.toggle("without-code");
  code.textContent = hides ? "Show the code" : "Hide the code";
  code.setAttribute("aria-pressed", String(!hides));
});
start().catch(error => tell(`The lesson could not be started: ${error.message}. Load the page again, or open the notebook.`, 0));
