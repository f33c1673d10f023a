import { saidBy } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';

/** Minimum fraction of messages that are specific to one device. */
const MOSTLY = 0.7;
const MAX_SHARE = 0.7;
/** Minimum fraction of records of each kind in which the message alone states subject or outcome. */
export const SAID = 0.8;

/**
 * The field that names the device or program component that wrote the records: it has few values, and each message
 * nearly always comes from the same one. `null` if there is none, as for an action and its phase.
 *
 * @param states the fields with states left and entered: none of them names a device
 */
export function sourcePath(
  telling: readonly string[],
  lines: readonly FieldLine[],
  states: readonly string[] = [],
): string | null {
  if (telling.length < 2) return null;
  let best: { path: string; said: number } | null = null;
  for (const path of telling) {
    const said = states.includes(path) ? null : saidBeside(path, telling, lines);
    if (said !== null && said > (best?.said ?? SAID)) best = { path, said };
  }
  return best?.path ?? null;
}

/** How informative the other fields are on their own; `null` if the field does not name the source. */
function saidBeside(path: string, telling: readonly string[], lines: readonly FieldLine[]): number | null {
  const others = telling.filter((other) => other !== path);
  const bySaid = new Map<string, Set<string>>();
  const sources = new Set<string>();
  for (const { fields } of lines) {
    const source = fields.get(path) ?? '';
    const said = others.map((other) => fields.get(other) ?? '').join(' ');
    if (source === '' || said.trim() === '') continue;
    sources.add(source);
    const known = bySaid.get(said);
    if (known === undefined) bySaid.set(said, new Set([source]));
    else known.add(source);
  }
  const single = [...bySaid.values()].filter((own) => own.size === 1).length;
  if (sources.size < 2 || sources.size > MAX_SHARE * bySaid.size || single < MOSTLY * bySaid.size) return null;
  return [...bySaid.keys()].reduce((sum, said) => sum + saidBy(said), 0) / bySaid.size;
}
