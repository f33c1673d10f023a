/**
 * The night record's schema as JSON Schema (draft 2020-12), for other programs.
 */
import { z } from 'zod';
import { SCHEMA_ID } from './schema-id.js';
import { nightRecordSchema } from './schema.js';

/** The JSON Schema of `night.json`. */
export function nightJsonSchema(): object {
  return { $id: SCHEMA_ID, title: 'nightledger night record', ...z.toJSONSchema(nightRecordSchema) };
}
