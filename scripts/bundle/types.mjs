// The types of what other programs may import: declarations of src/public and of all they lead to, and those of the
// night record from its published schema, so that who reads them needs no library of ours.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, posix } from 'node:path';
import { RARELY_COLLECTED } from '../engine.mjs';

/** The module that holds the record's types: in the sources they follow from a library's checks. */
const RECORD = 'record/schema.d.ts';
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
  const drafts = mkdtempSync(join(tmpdir(), 'nightledger-types-'));
  try {
    declare(root, entries, drafts);
    const done = new Set();
    const write = (file) => {
      if (done.has(file)) return;
      done.add(file);
      const text = readFileSync(file === RECORD ? join(root, RECORD_TYPES) : join(drafts, file), 'utf8');
      const path = join(folder, file);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, text);
      for (const [, way] of text.matchAll(IMPORTED)) write(posix.join(posix.dirname(file), `${way}.d.ts`));
    };
    for (const entry of entries) write(entry.replace(/\.ts$/, '.d.ts'));
  } finally {
    rmSync(drafts, { recursive: true, force: true });
  }
}

/** Declares what the entries lead to into a folder laid out as src. Types are checked elsewhere. */
function declare(root, entries, folder) {
  const config = join(folder, 'tsconfig.json');
  const compilerOptions = {
    rootDir: join(root, 'src'),
    outDir: folder,
    typeRoots: [join(root, 'node_modules/@types')],
    declaration: true,
    emitDeclarationOnly: true,
    noCheck: true,
  };
  const files = entries.map((entry) => join(root, 'src', entry));
  writeFileSync(config, JSON.stringify({ extends: join(root, 'tsconfig.json'), compilerOptions, include: [], files }));
  // One thread: they share the work so unevenly here that several take twice the processor's time.
  const compiler = [join(root, 'node_modules/typescript/bin/tsc'), '-p', config, '--singleThreaded'];
  const { status, stdout } = spawnSync(process.execPath, compiler, {
    encoding: 'utf8',
    env: { ...process.env, ...RARELY_COLLECTED },
  });
  if (status !== 0) throw new Error(`the types of ${entries.join(', ')} could not be declared: ${stdout}`);
}
