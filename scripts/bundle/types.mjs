// The types of what other programs may import: declarations of src/public and of all they lead to, and those of the
// night record from its published schema, so that who reads them needs no library of ours.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, posix } from 'node:path';
import { compile } from 'json-schema-to-typescript';

/** The module that holds the record's types: in the sources they follow from a library's checks. */
const RECORD = 'record/schema.d.ts';
const IMPORTED = /(?:from|import\()\s*['"](\.[^'"]+)\.js['"]/g;

/**
 * Writes the declarations.
 *
 * @param root the project's top
 * @param entries files of src that are imported from outside, such as `public/record.ts`
 * @param folder where they go, laid out as src
 */
export async function writeTypes(root, entries, folder) {
  const recordText = await recordTypes(root);
  const drafts = mkdtempSync(join(tmpdir(), 'nightledger-types-'));
  try {
    declare(root, entries, drafts);
    const done = new Set();
    const write = (file) => {
      if (done.has(file)) return;
      done.add(file);
      const text = file === RECORD ? recordText : readFileSync(join(drafts, file), 'utf8');
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
  const { status, stdout } = spawnSync(process.execPath, compiler, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`the types of ${entries.join(', ')} could not be declared: ${stdout}`);
}

async function recordTypes(root) {
  const schema = JSON.parse(readFileSync(join(root, 'schema/night-1.schema.json'), 'utf8'));
  const { $id: id } = schema;
  const record = await compile(withTuples({ ...schema, $id: undefined, title: undefined }), 'NightRecord', {
    bannerComment:
      '/** A night as it stands in `night.json`; its schema is published in schema/night-1.schema.json. */',
  });
  return `${record}
export declare const SCHEMA_ID = ${JSON.stringify(id)};
/** The record of one session; a night of several has one for each. */
export type SessionRecord = Omit<NightRecord, 'parts'>;
export type FrameRecord = NightRecord['frames'][number];
`;
}

/** Lists of fixed places as older drafts of the standard write them, which the library reads. */
function withTuples(schema) {
  if (Array.isArray(schema)) return schema.map(withTuples);
  if (typeof schema !== 'object' || schema === null) return schema;
  const { prefixItems, ...rest } = schema;
  const inner = Object.fromEntries(Object.entries(rest).map(([key, value]) => [key, withTuples(value)]));
  if (prefixItems === undefined) return inner;
  const { length } = prefixItems;
  return { ...inner, items: withTuples(prefixItems), additionalItems: false, minItems: length, maxItems: length };
}
