import { coresOf } from './classify/named-in.js';
import type { Trains } from './classify/trains.js';
import { nameKey } from './classify/twins.js';
import { escaped } from './escaped.js';
import { isTelling } from './lexicon/said.js';
import { wordList } from './lexicon/word-list.js';
import type { DraftRule } from './report.js';

/** What a train, or its camera, is called in front of its name. */
const TRAIN = wordList(
  'train tren treno zug comboio rig setup camera cam kamera camara telescope teleskop telescopio tubo tube tubus ' +
    'equipo equipment equipamento equipe instrument instrumento zestaw sestava souprava optik the der die das el la',
);
const NAME = String.raw`(?:(?<word>[\p{L}]+)\s+)?["'“«]?(?<name>[\p{L}][\p{L}\p{N}_-]{2,})`;
const IS = String.raw`(?:\.?\*)?["'”»]?\s*(?:=|:|：|＝|→|->|\bis\b|\bist\b|\bes\b|\best\b|è|é|\bjest\b|\bje\b)\s*`;

/**
 * The ids of the trains that a log calls by short names, according to its head: `A = heron, B = wren`, `h.* = train
 * heron`, `-1 = heron`. Without such words, names such as `heron-cam` and `wren-cam` are without what they share.
 *
 * @param names the trains as the log writes them
 * @param head the log's first lines
 * @returns an id for each name, or `null` if the names stand for themselves
 */
export function idsOf(names: readonly string[], head: readonly string[]): readonly string[] | null {
  const cores = coresOf(names);
  for (const tags of cores === names ? [names] : [names, cores]) {
    const found = tags.map((tag) => explained(tag, head) ?? '');
    if (areDifferent(found)) return found;
  }
  const beside = head.map((line) => names.map((name) => besideIn(name, line))).find(areDifferent);
  if (beside !== undefined) return beside;
  return cores !== names && cores.every((core) => /^\p{L}{3,}$/u.test(core)) ? cores : null;
}

function areDifferent(ids: readonly string[]): boolean {
  return ids.every((id) => id !== '') && new Set(ids).size === ids.length;
}

/** `HR heron   WR wren`: the name beside a code in capitals, where one line has one for each. */
function besideIn(tag: string, line: string): string {
  if (!/^\p{Lu}[\p{Lu}\d]{0,3}$/u.test(tag)) return '';
  const name =
    new RegExp(String.raw`(?<![\p{L}\p{N}])${escaped(tag)}\s(\p{Ll}{3,})(?=\s{2}|\s\p{Lu}|[,;]|$)`, 'u').exec(
      line,
    )?.[1] ?? '';
  return isTelling(name) || TRAIN.test(name) ? '' : name;
}

/** A word of this form names its train itself; what a head says of it is its part, such as `heron: pilot`. */
const OWN_NAME = /^\p{Script=Latin}{3,}$/u;

function explained(tag: string, head: readonly string[]): string | null {
  if (OWN_NAME.test(tag)) return null;
  const text = escaped(tag);
  const forward = new RegExp(String.raw`(?<![\p{L}\p{N}])${text}${IS}${NAME}`, 'iu');
  const backward = new RegExp(String.raw`${NAME}\s*(?:=|:|\bis\b|\()\s*["'“«]?[-#]?${text}(?![\p{L}\p{N}])`, 'iu');
  for (const form of [forward, backward])
    for (const line of head) {
      const { word, name } = form.exec(line)?.groups ?? {};
      if (name === undefined) continue;
      // `train heron`, `heron (pilot)`, `heron pilots`
      const id = word === undefined || TRAIN.test(word) ? name : word;
      if (id.length >= LEAST && !isTelling(id) && !TRAIN.test(id)) return id;
    }
  return null;
}
const LEAST = 3;

/** The names of trains that rules give, and the ids that they stand for; empty if each is its own. */
export function namesToIds(
  rules: readonly DraftRule[],
  trains: Trains | null,
  head: readonly string[],
): Readonly<Record<string, string>> {
  if (trains === null) return {};
  const ids = idsOf(trains.names, head) ?? trains.names;
  const found = new Map<string, string>();
  const add = (name: string, i: number): void => {
    const id = ids[i];
    if (id !== undefined && nameKey(id) !== nameKey(name)) found.set(name, id);
  };
  for (const { kind, train, events } of rules) {
    for (const { train: own } of events) if (own !== undefined) add(own, trains.names.indexOf(own));
    const slot = trains.slotOf(kind);
    if (slot === null) {
      if (train !== undefined) add(train, trains.names.indexOf(train));
      continue;
    }
    slot.perLine.forEach((value, nth) => {
      if (value !== undefined) add(value, trains.of(kind, nth));
    });
  }
  return Object.fromEntries(found);
}
