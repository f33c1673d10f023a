// Writes the published JSON Schema of the night record from the code that validates it, and the types that follow from
// the schema, which come with the program. The tool that makes types of a schema is fetched when this is run: it is
// seldom, and a seventh of all files that the project would else install are its libraries'.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { root, withModule } from './load-ts.mjs';

const TOOL = 'json-schema-to-typescript@16.0.0';

mkdirSync(`${root}/schema`, { recursive: true });
await withModule('/src/record/json-schema.ts', ({ nightJsonSchema }) => {
  const text = `${JSON.stringify(nightJsonSchema(), null, 2)}\n`;
  writeFileSync(`${root}/schema/night-1.schema.json`, text);
  writeFileSync(`${root}/schema/night-1.d.ts`, typesOf(text));
});

function typesOf(text) {
  const { $id: id, ...schema } = JSON.parse(text);
  return `/**
 * A night as it stands in \`night.json\`: what follows from its published schema, night-1.schema.json.
 * Made by \`npm run schema\` of the schema whose SHA-256 is ${createHash('sha256').update(text).digest('hex')}.
 */

${declared({ ...withTuples(schema), title: 'NightRecord' })}

export declare const SCHEMA_ID = ${JSON.stringify(id)};
/** The record of one session; a night of several has one for each. */
export type SessionRecord = Omit<NightRecord, 'parts'>;
export type FrameRecord = NightRecord['frames'][number];
`;
}

/** Types of a schema, by the tool of others. */
function declared(schema) {
  const { status, stdout, stderr, error } = spawnSync(
    'npm',
    ['exec', '--yes', `--package=${TOOL}`, '--', 'json2ts', '--bannerComment', '""'],
    { input: JSON.stringify(schema), encoding: 'utf8', shell: process.platform === 'win32' },
  );
  if (status !== 0) throw new Error(`schema/night-1.d.ts is as before: ${TOOL} could not be run: ${error ?? stderr}`);
  return stdout.replace('"";\n', '').trim();
}

/** Lists of fixed places as older drafts of the standard write them, which the tool reads. */
function withTuples(schema) {
  if (Array.isArray(schema)) return schema.map(withTuples);
  if (typeof schema !== 'object' || schema === null) return schema;
  const { prefixItems, ...rest } = schema;
  const inner = Object.fromEntries(Object.entries(rest).map(([key, value]) => [key, withTuples(value)]));
  if (prefixItems === undefined) return inner;
  const { length } = prefixItems;
  return { ...inner, items: withTuples(prefixItems), additionalItems: false, minItems: length, maxItems: length };
}
