import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { nightJsonSchema } from '../../src/record/json-schema.js';
import { nightRecordSchema, toRecord } from '../../src/record/index.js';
import { durationMs, sum } from '../../src/model/index.js';
import { sampleNight } from '../support/sample-night.js';

describe('the night record', async () => {
  const night = await sampleNight('twin-night');
  const record = toRecord(night, '0.0.0-test');
  const parsed: unknown = JSON.parse(JSON.stringify(record));

  it('is what the published JSON Schema says (checked by ajv, JSON Schema 2020-12)', () => {
    const ajv = new Ajv2020({ allErrors: true });
    addFormats.default(ajv);
    const validate = ajv.compile(
      JSON.parse(readFileSync(new URL('../../schema/night-1.schema.json', import.meta.url), 'utf8')),
    );
    validate(parsed);
    expect(validate.errors).toBeNull();
  });

  it('has a published schema that matches the code: `npm run schema` writes it', () => {
    const published: unknown = JSON.parse(
      readFileSync(new URL('../../schema/night-1.schema.json', import.meta.url), 'utf8'),
    );
    expect(published).toEqual(JSON.parse(JSON.stringify(nightJsonSchema())));
  });

  it('has types that were made of that very schema', () => {
    const [schema, types] = ['night-1.schema.json', 'night-1.d.ts'].map((file) =>
      readFileSync(new URL(`../../schema/${file}`, import.meta.url), 'utf8').replaceAll('\r\n', '\n'),
    );
    expect(types).toContain(
      createHash('sha256')
        .update(schema ?? '')
        .digest('hex'),
    );
  });

  it('survives its own validation unchanged', () => {
    expect(nightRecordSchema.parse(parsed)).toEqual(parsed);
  });

  it('balances: accounts of each train sum to the window', () => {
    const windowSeconds = durationMs(night.sky.window) / 1000;
    for (const { id } of record.trains) {
      expect(sum(record.ledger.filter((l) => l.train === id).map((l) => l.seconds))).toBeCloseTo(windowSeconds, 6);
    }
  });

  it('writes instants in UTC by RFC 3339', () => {
    for (const frame of record.frames) expect(frame.begin).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/);
  });
});
