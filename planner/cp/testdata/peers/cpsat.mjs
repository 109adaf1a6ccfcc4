// usage: node cpsat.mjs MODULES SECONDS LIST
//
// Asks CP-SAT, in the WebAssembly build of the npm package "or-tools-wasm" installed under MODULES, every model that the
// file LIST names, one a line: CP-SAT's own CpModelProto in JSON. Prints a JSON object a line: name, status, makespan
// (the objective), lower, seconds.
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [, , modules, seconds, list] = process.argv;
const entry = path.join(path.resolve(modules), 'node_modules/or-tools-wasm/build/javascript/node/cp-sat.js');
const { CpModel, CpSolver } = await import(pathToFileURL(entry).href);

const words = { OPTIMAL: 'optimal', FEASIBLE: 'feasible', INFEASIBLE: 'infeasible' };

for (const file of fs.readFileSync(list, 'utf8').split('\n').filter(Boolean)) {
  const proto = JSON.parse(fs.readFileSync(file, 'utf8'));
  const solver = new CpSolver();
  const begin = performance.now();
  const status = solver.statusName(await solver.solve(new CpModel(proto), { maxTimeInSeconds: Number(seconds), numWorkers: 1, randomSeed: 1 }));
  const answer = { name: path.basename(file, '.json'), status: words[status] || 'unknown', makespan: null, lower: null, seconds: (performance.now() - begin) / 1000 };
  if (!words[status]) answer.said = status;
  if (status === 'OPTIMAL' || status === 'FEASIBLE') {
    answer.makespan = proto.objective ? Math.round(solver.objectiveValue()) : 0;
    answer.lower = proto.objective ? Math.round(solver.bestObjectiveBound()) : 0;
  }
  console.log(JSON.stringify(answer));
}
process.exit(0);
