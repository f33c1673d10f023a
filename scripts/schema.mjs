// Writes the published JSON Schema of the night record from the code that validates it.
import { mkdirSync, writeFileSync } from 'node:fs';
import { root, withModule } from './load-ts.mjs';

mkdirSync(`${root}/schema`, { recursive: true });
await withModule('/src/record/json-schema.ts', ({ nightJsonSchema }) => {
  writeFileSync(`${root}/schema/night-1.schema.json`, `${JSON.stringify(nightJsonSchema(), null, 2)}\n`);
});
