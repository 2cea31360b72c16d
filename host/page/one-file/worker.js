// Computes, so that the page stays alive. Gets {module | packed, data} first, then {id, packet}; says {module} once, then
// {id, answer}.
'use strict';
const unzipping = (bytes, type) =>
  new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip')), {headers: {'Content-Type': type}});

let ask, memory;
const begin = async ({module, packed, data}) => {
  const compiled = module || await WebAssembly.compileStreaming(unzipping(packed, 'application/wasm'));
  const program = await vatwrightModule({
    // Nothing is fetched: the module is here.
    instantiateWasm: (imports, done) => {
      WebAssembly.instantiate(compiled, imports).then(instance => done(instance, compiled));
      return {};
    },
  });
  const files = await unzipping(data, 'application/json').json();
  for (const [name, text] of Object.entries(files)) {
    const parts = name.split('/');
    for (let i = 2; i < parts.length; ++i) {
      try { program.FS.mkdir(parts.slice(0, i).join('/')); } catch { /* it is there */ }
    }
    program.FS.writeFile(name, text);
  }
  ask = packet => {
    const bytes = program.lengthBytesUTF8(packet) + 1, at = program._malloc(bytes);
    try {
      program.stringToUTF8(packet, at, bytes);
      return program.UTF8ToString(program._vatwright_ask(at));
    } finally {
      program._free(at);
    }
  };
  memory = program._vatwright_memory;
  if (!module) postMessage({module: compiled});
};

let begun;
onmessage = async ({data}) => {
  if (!begun) {
    begun = begin(data).catch(error => postMessage({broken: String(error)}));
    return;
  }
  await begun;
  if (!ask) return;
  try {
    postMessage({id: data.id, answer: ask(data.packet), memory: memory()});
  } catch (error) {
    postMessage({id: data.id, broken: String(error)});
  }
};
