// My stand's file. Python's own files end with the page; so the text of this one is kept in the browser, once for all
// lessons and tabs, and Python's file and that text are brought together whenever one of them may have changed.
const NAME = "my_stand.toml", FOLDER = "notebooks", PATH = `${FOLDER}/${NAME}`;
const python = text => text === null ? "None" : JSON.stringify(text);

export class MyStand {
  // `shown` is told the text that is kept, null where there is none, and a sentence where there is something to say.
  constructor(contents, shown) {
    Object.assign(this, {contents, shown, kernel: null, text: null, last: Promise.resolve()});
    this.bell = new BroadcastChannel(NAME);  // heard by the other tabs
    this.bell.onmessage = () => this.sync();
    document.addEventListener("visibilitychange", () => document.hidden || this.sync());
  }

  // From now on with this Python; what it keeps is taken over as soon as it may have been kept.
  async join(kernel) {
    this.kernel = kernel;
    await this.sync();
  }

  follow() {
    this.kernel.anyMessage.connect((_, {msg, direction}) => {
      const {header: {msg_type: kind}, content} = msg;
      if (direction !== "send") return;
      const ran = kind === "execute_request" && !content.silent;
      if (ran || kind === "comm_msg" && JSON.stringify(content).includes('"keep_it"')) this.sync();
    });
  }

  // One after the other: two at once would each miss what the other does.
  async sync() {
    if (this.kernel) await this._next(() => this._sync());
  }

  _next(work) {
    const done = this.last.then(work).catch(error => this.shown(this.text, "my_stand.toml could not be kept in this "
      + `browser (${error.message}). Download it before you close the page.`));
    this.last = done;
    return done;
  }

  async _sync() {
    const kept = await this._kept(), before = this.text;
    let {text, said} = await this._ask("tell()");
    if (text !== kept) {
      const onlyHere = kept === before || kept === null && text !== before;
      if (text === null || text === before) ({text, said} = await this._ask(`lay(${python(kept)})`));
      else if (!onlyHere) ({text, said} = await this._ask(`merge(${python(before)}, ${python(kept)})`));
      if (text !== kept) await this._keep(text);
    }
    if (text !== this.text || said || !this.known) this.shown(text, said);
    Object.assign(this, {text, known: true});
  }

  // Put another text in its place, or none; returns a sentence where it cannot be read as a stand.
  async put(text) {
    let wrong = "";
    await this._next(async () => {
      if (text !== null) ({said: wrong} = await this._ask(`check(${python(text)})`));
      if (wrong) return;
      this.text = (await this._ask(`lay(${python(text)})`)).text;
      await this._keep(this.text);
      this.shown(this.text, "");
    });
    return wrong;
  }

  async _kept() {
    const {content} = await this.contents.get(FOLDER, {content: true});
    if (!content.some(each => each.name === NAME)) return null;
    return (await this.contents.get(PATH, {content: true, type: "file", format: "text"})).content;
  }

  async _keep(text) {
    if (text === null) await this.contents.delete(PATH);
    else await this.contents.save(PATH, {name: NAME, path: PATH, type: "file", format: "text", content: text});
    this.bell.postMessage("changed");
  }

  _ask(call) {
    return ask(this.kernel, call);
  }
}

// What Python's own part of this (kept.py) answers to a call.
export async function ask(kernel, call) {
  const code = `__import__("shoplib.class_pages.kept", fromlist=["kept"]).${call}`;
  const asked = kernel.requestExecute({code, silent: true, store_history: false});
  let told = "";
  asked.onIOPub = ({header, content}) => {
    if (header.msg_type === "stream") told += content.text;
  };
  const {content} = await asked.done;
  if (content.status !== "ok") throw new Error(content.evalue);
  return JSON.parse(told);
}
