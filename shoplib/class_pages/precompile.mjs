// Compiles the wheels of a folder with the Python that will run them: node precompile.mjs PYODIDE_MJS CORE FOLDER
const [module, core, folder] = process.argv.slice(2);
const {loadPyodide} = await import(module);
const pyodide = await loadPyodide({indexURL: core + "/"});
pyodide.mountNodeFS("/wheels", folder);
pyodide.runPython(`
import zipfile
from importlib import _bootstrap_external
from pathlib import Path

LEFT_OUT = "/tests/", "/benchmarks/", "jedi/third_party/django-stubs/", "jedi/third_party/typeshed/stubs/"

for path in sorted(Path("/wheels").glob("*.whl")):
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
`);
