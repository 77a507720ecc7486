// Starts Python from the memory that was kept after a start, with all packages in place: quicker than starting anew.
import {loadPyodide as start} from "./pyodide.mjs";

async function unpacked(name) {
  const answer = await fetch(new URL(name, import.meta.url));
  if (!answer.ok) throw new Error(`${name} is missing`);
  return new Uint8Array(await new Response(answer.body.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer());
}

// Where there is no such memory, or a browser cannot use it, Python starts the long way.
async function started(options) {
  try {
    return await start({...options, _loadSnapshot: await unpacked("started.bin")});
  } catch {
    return start(options);
  }
}

function lay(files, packages, folder) {
  const end = packages.indexOf(10);
  const listed = JSON.parse(new TextDecoder().decode(packages.subarray(0, end)));
  const made = new Set();
  let at = end + 1;
  for (const [name, size] of listed) {
    const path = `${folder}/${name}`, above = path.slice(0, path.lastIndexOf("/"));
    if (!made.has(above)) {
      files.mkdirTree(above);
      made.add(above);
    }
    files.writeFile(path, packages.subarray(at, at + size), {canOwn: true});
    at += size;
  }
}

export async function loadPyodide(options) {
  const packages = unpacked("packages.bin");
  packages.catch(() => {});  // told below, where it is waited for
  const python = await started({...options, packages: []});
  lay(python.FS, await packages, python.runPython("import sysconfig; sysconfig.get_path('purelib')"));
  // Chance begins anew in each reader's Python.
  python.runPython(`
import importlib, sys
importlib.invalidate_caches()
if "random" in sys.modules:
    sys.modules["random"].seed()
del importlib, sys, sysconfig`);
  return python;
}
