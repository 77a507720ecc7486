// A piece of page. Its HTML is written once; after that only what changes is sent.
//   data-place   the kernel fills it: HTML, a field's value, or several properties at once
//   data-ask     a field: what a person sets is told to the kernel under this name
//   data-press   a button, told with its data-value
//   data-open    a button that lets a person choose a file; its name and its text are told
//   data-columns holds columns that stand side by side where there is room; else their parts follow one another
const ROOM = 900;

function render({model, el}) {
  el.innerHTML = model.get("html");
  const columns = el.querySelector("[data-columns]");
  const places = [...el.querySelectorAll("[data-place]")];
  const stands = new Map();
  let asked = {}, waiting = false;

  const put = (each, what) => {
    if (typeof what === "object") {
      for (const [key, value] of Object.entries(what))
        if (key in each) each[key] = value; else each.setAttribute(key, value);
    } else if (each.matches("input, select")) each.value = what;
    else each.innerHTML = what;
  };
  const show = () => {
    for (const each of places) {
      const what = model.get(each.dataset.place);
      const underHand = each.dataset.ask in asked || each.dataset.typing;
      if (what === undefined || underHand || stands.get(each) === what) continue;
      put(each, what);
      stands.set(each, what);
    }
  };

  // One question is under way at a time: what is asked meanwhile waits, and the newest of it goes next.
  const send = () => {
    if (waiting || !Object.keys(asked).length) return;
    waiting = true;
    model.send({asked});
    asked = {};
  };
  const ask = (name, value) => {
    asked[name] = value;
    send();
  };
  const answered = () => {
    waiting = false;
    send();
    show();
  };

  const tell = each => {
    delete each.dataset.typing;
    stands.delete(each);
    ask(each.dataset.ask, each.type === "range" ? each.valueAsNumber : each.value);
  };
  el.addEventListener("input", ({target}) => {
    if (target.type === "text") target.dataset.typing = "yes";
    else tell(target);
  });
  // A finger that draws the page up may begin on a slider, which then jumps to it: once the page scrolls, it goes back.
  let held = null;
  el.addEventListener("pointerdown", ({target}) => {
    held = target.type === "range" ? [target, target.value] : null;
  }, true);
  el.addEventListener("pointercancel", () => {
    if (!held || held[0].value === held[1]) return;
    held[0].value = held[1];
    tell(held[0]);
  }, true);
  for (const left of ["focusout", "keydown"]) el.addEventListener(left, ({target, key = "Enter"}) => {
    if (key === "Enter" && target.dataset.typing) tell(target);
  });
  // The text is null where the file is none, or larger than any table.
  const open = name => {
    const input = document.createElement("input");
    Object.assign(input, {type: "file", accept: ".csv,.tsv,.txt,text/csv", onchange: async () => {
      const [file] = input.files, reads = new TextDecoder("utf-8", {fatal: true});
      const text = file.size > 2e6 ? null : await file.arrayBuffer().then(all => reads.decode(all)).catch(() => null);
      ask(name, {name: file.name, text});
    }});
    input.click();
  };
  el.addEventListener("click", event => {
    const opens = event.target.closest("[data-open]");
    if (opens) open(opens.dataset.open);
    const each = event.target.closest("[data-press]");
    if (each) ask(each.dataset.press, each.dataset.value ?? "");
  });

  const fit = () => {
    const beside = el.clientWidth >= ROOM;
    columns.style.flexDirection = beside ? "row" : "column";
    for (const each of columns.children) each.style.display = beside ? "flex" : "contents";
  };
  const watch = new ResizeObserver(fit);
  watch.observe(el);
  model.on("change:answered", answered);
  fit();
  show();
  return () => {
    watch.disconnect();
    model.off("change:answered", answered);
  };
}

export default {render};
