/**
 * Keys of a rig file without a value, as left by commenting out everything below: treated as absent. A filter named
 * like this has no figures.
 */
import { ownValue } from '../model/index.js';
import { KNOWN_KEYS, OPEN_MAPS } from './rig-schema.js';

/** @param pattern the location of the value among {@link KNOWN_KEYS} */
export function withoutEmptyKeys(value: unknown, pattern = ''): unknown {
  const below = (key: string): string => (pattern === '' ? key : `${pattern}.${key}`);
  if (Array.isArray(value)) return value.map((item) => withoutEmptyKeys(item, below('*')));
  if (value === null || typeof value !== 'object') return value;
  const isOpen = OPEN_MAPS.includes(pattern);
  const known = ownValue(KNOWN_KEYS, pattern);
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]): [string, unknown][] => {
      if (inner === null && isOpen) return [[key, {}]];
      if (inner === null && known?.includes(key)) return [];
      return [[key, withoutEmptyKeys(inner, below(isOpen ? '*' : key))]];
    }),
  );
}
