// The types of what other programs may import: declarations of src/public and of all they lead to, and those of the
// night record from its published schema, so that who reads them needs no library of ours.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { compile } from 'json-schema-to-typescript';
import ts from 'typescript';

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
  const declarationOf = declarations(root, entries);
  const recordText = await recordTypes(root);
  const done = new Set();
  const write = (file) => {
    if (done.has(file)) return;
    done.add(file);
    const text = file === RECORD ? recordText : declarationOf(file);
    const path = join(folder, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    for (const [, way] of text.matchAll(IMPORTED)) write(posix.join(posix.dirname(file), `${way}.d.ts`));
  };
  for (const entry of entries) write(entry.replace(/\.ts$/, '.d.ts'));
}

/** Gives the declarations of a module of src, by the path they shall have below src. */
function declarations(root, entries) {
  const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent({ ...config, include: [], files: [] }, ts.sys, root);
  const program = ts.createProgram(
    entries.map((entry) => join(root, 'src', entry)),
    // Types are checked elsewhere.
    { ...options, noEmit: false, declaration: true, emitDeclarationOnly: true, noCheck: true },
  );
  return (file) => {
    const source = program.getSourceFile(join(root, 'src', file.replace(/\.d\.ts$/, '.ts')));
    let declared;
    program.emit(source, (_path, text) => {
      declared = text;
    });
    if (source === undefined || declared === undefined) throw new Error(`${file} could not be declared`);
    return declared;
  };
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
