// The types of what other programs may import: declarations of src/public and of all they lead to, and those of the
// night record from its published schema, so that who reads them needs no library of ours.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { isolatedDeclarationSync } from 'rolldown/experimental';
import { RARELY_COLLECTED } from '../engine.mjs';

/** The module that holds the record's types: in the sources they follow from a library's checks. */
const RECORD = 'record/schema';
/** Made of the schema by `npm run schema`. */
const RECORD_TYPES = 'schema/night-1.d.ts';
const IMPORTED = /(?:from|import\()\s*['"](\.[^'"]+)\.js['"]/g;

/**
 * Writes the declarations.
 *
 * @param root the project's top
 * @param entries files of src that are imported from outside, such as `public/record.ts`
 * @param folder where they go, laid out as src
 */
export function writeTypes(root, entries, folder) {
  const modules = entries.map((entry) => entry.replace(/\.ts$/, ''));
  const { declared, inferred } = declaredAlone(root, modules);
  const all = new Map([...declared, ...declaredTogether(root, declared, inferred)]);
  const done = new Set();
  const write = (module) => {
    if (done.has(module)) return;
    done.add(module);
    const text = all.get(module);
    const path = join(folder, `${module}.d.ts`);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    for (const one of importsOf(module, text)) write(one);
  };
  for (const module of modules) write(module);
}

/** The modules of src that one imports, by their paths below it, without an ending. */
const importsOf = (module, text) =>
  [...text.matchAll(IMPORTED)].map(([, way]) => posix.join(posix.dirname(module), way));

/**
 * What the entries lead to: the declarations of modules that write out the types of all that they export, a hundredth
 * of the time that the compiler takes, and the sources of others, whose types follow from what they hold.
 */
function declaredAlone(root, entries) {
  const declared = new Map([[RECORD, readFileSync(join(root, RECORD_TYPES), 'utf8')]]);
  const inferred = new Map();
  const declare = (module) => {
    if (declared.has(module) || inferred.has(module)) return;
    const source = readFileSync(join(root, 'src', `${module}.ts`), 'utf8');
    const { code, errors } = isolatedDeclarationSync(`${module}.ts`, source, { sourcemap: false });
    if (errors.length === 0) declared.set(module, code);
    else inferred.set(module, source);
    for (const one of importsOf(module, errors.length === 0 ? code : source)) declare(one);
  };
  for (const entry of entries) declare(entry);
  return { declared, inferred };
}

/** The declarations of modules whose types the compiler has to infer. Types are checked elsewhere. */
function declaredTogether(root, declared, inferred) {
  // Below the project's top, so that packages are found.
  mkdirSync(join(root, '.cache'), { recursive: true });
  const drafts = mkdtempSync(join(root, '.cache', 'types-'));
  try {
    const put = (path, text) => {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, text);
    };
    for (const [module, text] of declared) put(join(drafts, 'src', `${module}.d.ts`), text);
    for (const [module, text] of inferred) put(join(drafts, 'src', `${module}.ts`), text);
    const compilerOptions = {
      rootDir: join(drafts, 'src'),
      outDir: join(drafts, 'out'),
      declaration: true,
      emitDeclarationOnly: true,
      noCheck: true,
    };
    const files = [...inferred.keys()].map((module) => join(drafts, 'src', `${module}.ts`));
    const config = join(drafts, 'tsconfig.json');
    put(config, JSON.stringify({ extends: join(root, 'tsconfig.json'), compilerOptions, include: [], files }));
    // One thread: they share the work so unevenly here that several take twice the processor's time.
    const compiler = [join(root, 'node_modules/typescript/bin/tsc'), '-p', config, '--singleThreaded'];
    const { status, stdout } = spawnSync(process.execPath, compiler, {
      encoding: 'utf8',
      env: { ...process.env, ...RARELY_COLLECTED },
    });
    if (status !== 0)
      throw new Error(`the types of ${[...inferred.keys()].join(', ')} could not be declared: ${stdout}`);
    return [...inferred.keys()].map((module) => [module, readFileSync(join(drafts, 'out', `${module}.d.ts`), 'utf8')]);
  } finally {
    rmSync(drafts, { recursive: true, force: true });
  }
}
