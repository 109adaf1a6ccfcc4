// Judges the recipe exports in a folder: node judge.mjs MODULES FOLDER
// The types of schema.org are generated from its own vocabulary, so that a property or a type that it does not have is
// refused; the JSON-LD processor expands each export as any consumer would. Neither asks the network.
import { createRequire } from "node:module";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const [modules, folder] = process.argv.slice(2);
const require = createRequire(join(modules, "package.json"));
const ts = require("typescript");
const jsonld = require("jsonld");
const schema = "https://schema.org/";
const files = readdirSync(folder).filter((f) => f.endsWith(".jsonld")).sort();

// refused lists what the compiler has against a recipe.
function refused(name, text) {
  const file = join(folder, name + ".ts");
  writeFileSync(file, `import type { Recipe, WithContext } from "schema-dts";\nconst recipe: WithContext<Recipe> = ${text};\nexport default recipe;\n`);
  const options = { strict: true, noEmit: true, skipLibCheck: true, moduleResolution: ts.ModuleResolutionKind.NodeNext,
    module: ts.ModuleKind.NodeNext, target: ts.ScriptTarget.ES2022, types: [], paths: { "schema-dts": [join(modules, "node_modules/schema-dts")] } };
  return { file, options };
}

function compile(list) {
  const program = ts.createProgram(list.map((c) => c.file), list[0].options);
  return ts.getPreEmitDiagnostics(program).map((d) => `${d.file ? d.file.fileName.split("/").pop() : ""}: ${ts.flattenDiagnosticMessageText(d.messageText, " ")}`);
}

// What must be refused is: or the judge is asleep.
const good = readFileSync(join(folder, files[0]), "utf8");
for (const [what, text] of Object.entries({
  "a property that schema.org lacks": good.replace('"recipeYield"', '"recipeYeild"'),
  "a type that schema.org lacks": good.replace('"HowToStep"', '"HowToSteps"'),
  "a step without text, as a number": good.replace(/"text": "[^"]*"/, '"text": 7'),
})) {
  if (text === good || compile([refused("control", text)]).length === 0) {
    console.log(`control: ${what} was not refused`);
    process.exit(1);
  }
}
const complaints = compile(files.map((f, i) => refused("recipe" + i, readFileSync(join(folder, f), "utf8"))));

// The context is schema.org's own in short: every term is one of its vocabulary.
const documentLoader = async (url) => {
  if (url.replace(/\/$/, "") !== "https://schema.org") throw new Error("the export asks for " + url);
  return { contextUrl: null, documentUrl: url, document: { "@context": { "@vocab": schema, id: "@id", type: "@type" } } };
};
let steps = 0;
for (const f of files) {
  const doc = JSON.parse(readFileSync(join(folder, f), "utf8"));
  const quads = await jsonld.toRDF(doc, { documentLoader, safe: true });
  const typed = (t) => quads.filter((q) => q.predicate.value.endsWith("#type") && q.object.value === schema + t).length;
  const told = (p) => quads.filter((q) => q.predicate.value === schema + p).length;
  const want = doc.recipeInstructions.length;
  if (typed("Recipe") !== 1 || typed("HowToStep") !== want || told("text") !== want || told("recipeIngredient") !== new Set(doc.recipeIngredient).size)
    complaints.push(`${f}: ${typed("Recipe")} recipes, ${typed("HowToStep")} steps of ${want}, ${told("recipeIngredient")} ingredients of ${doc.recipeIngredient.length}`);
  steps += want;
}
for (const c of complaints) console.log(c);
console.log(`${files.length} recipes with ${steps} steps judged, ${complaints.length} complaints`);
process.exit(complaints.length ? 1 : 0);
