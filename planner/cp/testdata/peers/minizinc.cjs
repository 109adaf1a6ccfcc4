// usage: node minizinc.cjs MODULES SOLVER SECONDS FLAGS LIST
//
// Asks a solver of the npm package "minizinc" (a WebAssembly build, installed under MODULES) every model that the file
// LIST names, one a line, and prints a JSON object a line: name, status, makespan (the objective), seconds (from the
// question to the answer, less what a question without variables takes), search (the solver's own clock, without
// flattening and posting). FLAGS go to the solver, "" for none.
const fs = require('fs');
const path = require('path');
const vm = require('vm');

const [, , modules, solver, seconds, flags, list] = process.argv;
const dist = path.join(path.resolve(modules), 'node_modules/minizinc/dist');

// The package's worker speaks as a web worker does: these stand in for its world.
let handle;
const waiting = {};
let printed = [];
globalThis.addEventListener = (kind, f) => { handle = f; };
globalThis.postMessage = (m) => {
  if (waiting[m.type]) waiting[m.type](m);
  else printed.push(m);
};
globalThis.require = require;
globalThis.__dirname = dist;
globalThis.__filename = path.join(dist, 'minizinc-worker.js');
const worker = `(() => {${fs.readFileSync(globalThis.__filename, 'utf8')}\n})()`;
const next = (kind) => new Promise((done) => { waiting[kind] = done; });

const statusOf = (text) => {
  const found = text.includes('objective = ');
  if (text.includes('=====UNSATISFIABLE=====')) return 'infeasible';
  if (text.includes('==========')) return found ? 'optimal' : 'unknown';
  return found ? 'feasible' : 'unknown';
};

const last = (text, pattern) => {
  const all = [...text.matchAll(pattern)];
  return all.length ? Number(all[all.length - 1][1]) : null;
};

// A solver keeps its clock and its best objective from one run to the next: every question gets a new instance.
async function instance() {
  vm.runInThisContext(worker, { filename: globalThis.__filename });
  const ready = next('ready');
  await handle({ data: { wasmURL: path.join(dist, 'minizinc.wasm'), dataURL: path.join(dist, 'minizinc.data') } });
  await ready;
}

// run puts a model to the solver and returns all that it printed.
async function run(model) {
  await instance();
  printed = [];
  const done = next('exit');
  const args = ['--solver', solver, '-a', '-s', '--time-limit', String(1000 * seconds), ...flags.split(' ').filter(Boolean), 'm.mzn'];
  const begin = performance.now();
  handle({ data: { jsonStream: false, args, files: { 'm.mzn': model } } });
  const exit = await done;
  const text = printed.map((o) => (typeof o.value === 'string' ? o.value : JSON.stringify(o))).join('')
    + (exit.stdout || '') + (exit.stderr || '');
  return { text, seconds: (performance.now() - begin) / 1000 };
}

async function ask(file, startUp) {
  const { text, seconds: all } = await run(fs.readFileSync(file, 'utf8'));
  const status = statusOf(text);
  const answer = {
    name: path.basename(file, '.mzn'),
    status,
    makespan: last(text, /^objective = (-?\d+)/gm),
    seconds: Math.max(0, all - startUp),
    search: last(text, /solveTime=([\d.e+-]+)/g),
  };
  if (status === 'unknown' && !text.includes('=====UNKNOWN=====')) answer.said = text.slice(-300);
  console.log(JSON.stringify(answer));
}

(async () => {
  let startUp = Infinity;
  for (let i = 0; i < 5; i += 1) startUp = Math.min(startUp, (await run('include "cumulative.mzn"; solve satisfy;')).seconds);
  for (const file of fs.readFileSync(list, 'utf8').split('\n').filter(Boolean)) await ask(file, startUp);
  process.exit(0);
})();
