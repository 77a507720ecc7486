// Compiles Python's own library and the wheels of a folder with the Python that will run them, and keeps that Python's
// memory as it is after a start: node prepare.mjs PYODIDE_MJS CORE FOLDER STARTED
import {writeFileSync} from "node:fs";
import {gzipSync} from "node:zlib";

const [module, core, folder, started] = process.argv.slice(2);
const {loadPyodide} = await import(module);
const python = await loadPyodide({indexURL: `${core}/`});
python.mountNodeFS("/wheels", folder);
python.runPython(`
import zipfile
from importlib import _bootstrap_external
from pathlib import Path

LEFT_OUT = (
    "/tests/", "/testsuite/", "/benchmarks/", "jedi/third_party/django-stubs/", "jedi/third_party/typeshed/stubs/",
)

for path in [*sorted(Path("/wheels").glob("*.whl")), Path("/wheels/python_stdlib.zip")]:
    with zipfile.ZipFile(path) as packed:
        files = {each.filename: packed.read(each) for each in packed.infolist() if not each.is_dir()}
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as packed:
        for name, content in files.items():
            if any(each in name for each in LEFT_OUT):
                continue
            if name.endswith(".py"):
                code = compile(content, name, "exec", dont_inherit=True)
                name, content = name + "c", bytes(_bootstrap_external._code_to_timestamp_pyc(code, 0, 0))
            packed.writestr(zipfile.ZipInfo(name, (2020, 1, 1, 0, 0, 0)), content, zipfile.ZIP_DEFLATED)
    if path.suffix == ".whl":
        with zipfile.ZipFile(path) as packed:
            packed.extractall("/lib/wheels")
`);

// What a lesson loads of Python's own library is loaded beforehand, and lies in the memory that is kept.
const used = python.runPython(`
import json, sys
sys.path.append("/lib/wheels")
before = {*sys.modules}
import comm, IPython, ipywidgets, jedi, piplite.piplite
from shoplib import Bench, CircleJig
Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
loaded = [name for name in sys.modules if name not in before and not name.startswith("_")]
json.dumps([name for name in loaded if name.partition(".")[0] in sys.stdlib_module_names])
`);

// A browser can take the memory back only in the size that a Python begins with; an empty list always fits.
for (const names of [used, "[]"]) {
  const fresh = await loadPyodide({
    indexURL: `${core}/`, stdLibURL: `${folder}/python_stdlib.zip`, _makeSnapshot: true,
  });
  const size = fresh._module.HEAP8.length;
  fresh.globals.set("names", names);
  fresh.runPython(`
import gc, importlib, json
for name in json.loads(names):
    importlib.import_module(name)
    gc.collect()
name = None
del gc, importlib, json, name, names
`);
  if (fresh._module.HEAP8.length > size) continue;
  writeFileSync(started, gzipSync(fresh.makeMemorySnapshot(), {level: 9}));
  break;
}
