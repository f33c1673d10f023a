import { hasField, type FieldName } from '../../../model/index.js';
import { namedIn } from './classify/named-in.js';
import type { Trains } from './classify/trains.js';
import { nameKey } from './classify/twins.js';
import type { Slot } from './kinds/kind.js';
import { isFilterName } from './kinds/values.js';
import { wordList } from './lexicon/word-list.js';
import type { DraftRule } from './report.js';
import { FROM_TO, near } from './seconds-words.js';

/** A slot number of a filter wheel and its filter: `1=L`, `2: Ha`. */
const ENTRY = /(?<![\p{L}\p{N}.])(?<slot>\d{1,2})\s?[=:→]\s?["']?(?<name>\p{L}[\p{L}\p{N}+-]*)/gu;
const MIN_ENTRIES = 2;
/** Minimum fraction of names that are those of common filters. */
const KNOWN = 0.5;
const SLOT = wordList(
  'slot slots pos position filter filtro filtre filtr wheel whl fw roue rueda ruota rad platz fach posicion ' +
    'posizione plaats pozycja pozice roda vak 槽 位置',
);
/** Events that have a filter, and the field that holds it. */
const FIELDS: readonly FieldName[] = ['to', 'filter'];

/** The filters in the slots of a wheel according to a log's head, and the train that its line names, if any. */
interface SlotLegend {
  readonly names: ReadonlyMap<string, string>;
  readonly line: string;
}

/** The lines of a head that say which filter is in which slot. */
function legendsIn(head: readonly string[]): readonly SlotLegend[] {
  return head.flatMap((line): SlotLegend[] => {
    const entries = [...line.matchAll(ENTRY)].map(({ groups }) => [groups?.slot ?? '', groups?.name ?? ''] as const);
    const names = new Map(entries);
    const known = [...names.values()].filter(isFilterName).length;
    const isOne = names.size >= MIN_ENTRIES && names.size === entries.length && known >= KNOWN * names.size;
    return isOne ? [{ names, line }] : [];
  });
}

/**
 * The rules with the names of filters for the slot numbers that their lines state, where the log's head gives them.
 * Where it gives several, those of a train are on a line that names it.
 */
export function withSlotNames(
  rules: readonly DraftRule[],
  trains: Trains | null,
  head: readonly string[],
): readonly DraftRule[] {
  const legends = legendsIn(head);
  const [first] = legends;
  if (first === undefined) return rules;
  const isSame = legends.every(({ names }) => isAlike(names, first.names));
  const trainIn = namedIn((trains?.names ?? []).map(nameKey));
  return rules.map((rule) => {
    const own = trains === null || trains.slotOf(rule.kind) !== null ? -1 : trainIn(rule.kind.wording);
    const legend = isSame ? first : legends.find(({ line }) => own >= 0 && trainIn(line) === own);
    return legend === undefined ? rule : withNames(rule, legend.names);
  });
}

function isAlike(one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>): boolean {
  return one.size === other.size && [...one].every(([slot, name]) => other.get(slot) === name);
}

function withNames(rule: DraftRule, names: ReadonlyMap<string, string>): DraftRule {
  const field = FIELDS.find((name) => rule.events.some(({ event }) => hasField(event, name)));
  if (field === undefined || field in rule.fields || [...rule.groups.values()].includes(field)) return rule;
  const slot = slotOf(rule, field, names);
  if (slot === undefined) return rule;
  const filters = Object.fromEntries(names);
  if (slot.path !== null) return { ...rule, slots: { field, place: slot.path, names: filters } };
  const groups = new Map([...rule.groups, [slot, GROUP] as const]);
  return { ...rule, groups, when: rule.kind.when(groups), slots: { field, place: GROUP, names: filters } };
}
const GROUP = 'slot';

/** The number that is one of the wheel's slots: named so, or where a wheel turns; from one to another, the other. */
function slotOf({ kind, groups }: DraftRule, field: FieldName, names: ReadonlyMap<string, string>): Slot | undefined {
  const free = kind.slots.filter(
    (slot) => slot.type === 'number' && !groups.has(slot) && slot.values.every((value) => names.has(value)),
  );
  const left = free.findIndex(({ after }) => FROM_TO.test(after));
  if (field === 'to' && left >= 0) return free[left + 1];
  const named = free.filter((slot) => near(slot, SLOT, slot.path === null ? 2 : 1));
  return (field === 'to' && named.length === 0 ? free : named).at(-1);
}
