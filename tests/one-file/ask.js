// The module under node: packets in JSON come in, answers go out. ask.js FOLDER
'use strict';
const fs = require('fs');
const path = require('path');

const folder = process.argv[2];
const packets = JSON.parse(fs.readFileSync(0, 'utf8'));
const html = fs.readFileSync(path.join(folder, 'vatwright.html'), 'utf8');
// Of the file itself, not of the build: what is shipped is tested.
const unpacked = id => require('zlib').gunzipSync(Buffer.from(html.match(new RegExp(`id="${id}">([^<]*)<`))[1], 'base64'));
const glue = html.match(/id="worker">([^]*?)<\/script>/)[1];
const factory = new Function('require', 'process', '__dirname', '__filename', `${glue.split("// Computes, so that the page stays alive.")[0]}; return vatwrightModule;`)(require, process, folder, path.join(folder, 'vatwright.js'));

factory({wasmBinary: unpacked('module')}).then(program => {
  for (const [name, text] of Object.entries(JSON.parse(unpacked('data').toString('utf8')))) {
    const parts = name.split('/');
    for (let i = 2; i < parts.length; ++i) {
      try { program.FS.mkdir(parts.slice(0, i).join('/')); } catch { /* it is there */ }
    }
    program.FS.writeFile(name, text);
  }
  const answers = packets.map(packet => {
    const words = JSON.stringify(packet), bytes = program.lengthBytesUTF8(words) + 1, at = program._malloc(bytes);
    program.stringToUTF8(words, at, bytes);
    const answer = JSON.parse(program.UTF8ToString(program._vatwright_ask(at)));
    program._free(at);
    return answer;
  });
  process.stdout.write(JSON.stringify(answers));
}, error => { console.error(error); process.exit(1); });
