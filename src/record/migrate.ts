/**
 * Records of older versions are migrated to the present one when read; the file itself is unchanged until it is written
 * again.
 */
import { isObject, type JsonObject } from '../model/index.js';
import { withPresentNames } from './earlier-names.js';

const SCHEMA = /^nightledger\/night\/(\d+)$/;

/** The version this program writes. */
export const CURRENT_VERSION = 1;

/** Migrates a record from one version to the next, `schema` apart; called for each session of a night. */
export type Migration = (record: JsonObject) => JsonObject;

/** `MIGRATIONS[n]` migrates version n to n + 1. Version 1 is the first. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {};

/** A record at the present version, or why there is none. */
export type Migrated =
  | { readonly ok: true; readonly record: JsonObject }
  | { readonly ok: false; readonly state: 'foreign' | 'newer' | 'damaged'; readonly why: string };

/**
 * Migrates a parsed record to the present version.
 *
 * @param steps migrations by the version they start from
 */
export function migrate(
  value: unknown,
  current = CURRENT_VERSION,
  steps: Readonly<Record<number, Migration>> = MIGRATIONS,
): Migrated {
  if (!isObject(value)) return { ok: false, state: 'foreign', why: 'it is not a JSON object' };
  const version = versionOf(value);
  if (version === null) return { ok: false, state: 'foreign', why: 'it does not say that it is a night record' };
  if (version > current) {
    return {
      ok: false,
      state: 'newer',
      why:
        `it has version ${version} of the record's schema and this program knows ${current}; install a ` +
        'newer nightledger to read it',
    };
  }
  let record: JsonObject = value;
  for (let from = version; from < current; from++) {
    const step = steps[from];
    if (step === undefined)
      return {
        ok: false,
        state: 'damaged',
        why: `it has version ${from} of the record's schema, and no such version is known`,
      };
    record = withVersion(step(record), from + 1);
  }
  record = withPresentNames(record);
  const parts = record.parts;
  if (!Array.isArray(parts)) return { ok: true, record };
  const migrated = parts.map((part: unknown) => migrate(part, current, steps));
  const bad = migrated.find((part) => !part.ok);
  if (bad && !bad.ok)
    return { ok: false, state: bad.state === 'foreign' ? 'damaged' : bad.state, why: `of a session in it: ${bad.why}` };
  return { ok: true, record: { ...record, parts: migrated.flatMap((part) => (part.ok ? [part.record] : [])) } };
}

function versionOf(value: JsonObject): number | null {
  const match = typeof value.schema === 'string' ? SCHEMA.exec(value.schema) : null;
  return match ? Number(match[1]) : null;
}

function withVersion(record: JsonObject, version: number): JsonObject {
  return { ...record, schema: `nightledger/night/${version}` };
}
