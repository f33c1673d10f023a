/** The archive's goals file, `goals.yaml`: the goals of each target, its other names, and how filters are counted. */
import { z } from 'zod';
import {
  formatPath,
  hasGoals,
  parseDeclinationDeg,
  parseRightAscensionDeg,
  type BookTarget,
  type Goals,
  type GoalsBook,
  type Warning,
} from '../model/index.js';
import { number, text } from './fields.js';
import { angle, goalsShape, toGoals } from './rig-schema.js';
import { ignoredKeys, validate, type UnknownKey, type YamlIssue } from './validate.js';
import { ConfigError, parseYaml } from './yaml-file.js';

const target = z
  .object({
    name: text('the name of the target'),
    aliases: z
      .array(text('another name of it'), { error: 'must be a list of names, such as [ "Sh2-184" ]' })
      .default([]),
    ra: angle(parseRightAscensionDeg, 'a right ascension such as "00:52:59" (hours) or degrees as a number').optional(),
    dec: angle(parseDeclinationDeg, 'a declination such as "+56:37:19" or degrees as a number').optional(),
    priority: number('how many times an hour of it counts in the plan', 0.1, 10).optional(),
    panels: z
      .array(
        z
          .object({
            name: text('the name of the panel'),
            ra: angle(parseRightAscensionDeg, 'a right ascension such as "00:52:59" or degrees').optional(),
            dec: angle(parseDeclinationDeg, 'a declination such as "+56:37:19" or degrees').optional(),
          })
          .loose(),
        { error: 'must be a list of panels, such as [ { name: Veil 1, ra: "20:45:38", dec: "+30:42:30" } ]' },
      )
      .min(1, 'must name at least one panel')
      .optional(),
    ...goalsShape,
  })
  .loose();

const schema = z
  .object({
    targets: z.array(target, { error: 'must be a list of targets' }).default([]),
    filters: z
      .record(
        z.string(),
        z.array(text('a name the capture program uses'), { error: 'must be a list of names, such as [ "H-alpha" ]' }),
      )
      .default({}),
    narrowband: z
      .array(text('the name of a filter'), { error: 'must be a list of filters, such as [ Ha, OIII ]' })
      .default([]),
  })
  .loose();

const KEYS = Object.keys(schema.shape);
const TARGET_KEYS = Object.keys(target.shape);

/** No goals beyond those the rig files name. */
export const NO_BOOK: GoalsBook = { targets: [], filterAliases: new Map(), narrowband: new Set() };

/**
 * Reads a goals file's text.
 *
 * @param name the file's name for messages
 * @throws ConfigError naming every problem with line, path and fix
 */
export function parseGoals(name: string, source: string): { book: GoalsBook; warnings: Warning[] } {
  const yaml = parseYaml(name, source);
  if (yaml.value === null || yaml.value === undefined) return { book: NO_BOOK, warnings: [] };
  if (typeof yaml.value !== 'object' || Array.isArray(yaml.value)) {
    throw new ConfigError([`${name}: must be a mapping, such as targets: [ { name: NGC 281, goals: { Ha: 12h } } ]`]);
  }
  const written = targetsIn(yaml.value);
  const unknown = [
    ...unknownKeys(yaml.value, [], KEYS),
    ...written.flatMap((one, i) => unknownKeys(one, ['targets', i], TARGET_KEYS)),
  ];
  const raw = validate(name, yaml, schema, { wrong: repeatedNames(written), unknown });
  return {
    book: {
      targets: raw.targets.flatMap(toBookTargets),
      filterAliases: new Map(
        Object.entries(raw.filters).flatMap(([filter, aliases]) =>
          aliases.map((alias) => [alias.trim().toLowerCase(), filter] as const),
        ),
      ),
      narrowband: new Set(raw.narrowband.map((filter) => filter.trim().toLowerCase())),
    },
    warnings: ignoredKeys(name, yaml, unknown, 'unknown-goals-key'),
  };
}

/** A target; of a mosaic its panels, which share its goals evenly. */
function toBookTargets(raw: z.output<typeof target>): BookTarget[] {
  const goals = toGoals(raw);
  const more = raw.priority === undefined ? {} : { priority: raw.priority };
  if (raw.panels === undefined) {
    const own = hasGoals(goals) ? { goals } : {};
    return [{ name: raw.name, aliases: raw.aliases, raDeg: raw.ra, decDeg: raw.dec, ...more, ...own }];
  }
  const share = hasGoals(goals) ? { goals: sharedOut(goals, raw.panels.length) } : {};
  return raw.panels.map(({ name, ra, dec }) => ({ name, aliases: [], raDeg: ra, decDeg: dec, ...more, ...share }));
}

function sharedOut({ hours, perTrain, ratio, totalHours }: Goals, panels: number): Goals {
  const each = (all: Readonly<Record<string, number>>) =>
    Object.fromEntries(Object.entries(all).map(([filter, h]) => [filter, h / panels]));
  return {
    hours: each(hours),
    perTrain: Object.fromEntries(Object.entries(perTrain).map(([train, own]) => [train, each(own)])),
    ...(ratio ? { ratio: { ...ratio, totalHours: ratio.totalHours / panels } } : {}),
    ...(totalHours === undefined ? {} : { totalHours: totalHours / panels }),
  };
}

/** A target's names as written, whatever else is wrong with it. */
interface Written {
  readonly name?: unknown;
  readonly aliases?: unknown;
  readonly panels?: unknown;
}

function targetsIn(file: object): Written[] {
  const targets: unknown = 'targets' in file ? file.targets : undefined;
  return listOf(targets).map((one) => (typeof one === 'object' && one !== null ? one : {}));
}

const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** A name that means two targets would count frames twice. */
function repeatedNames(targets: readonly Written[]): YamlIssue[] {
  const owners = new Map<string, number>();
  return targets.flatMap((target, i) =>
    namesOf(target, i).flatMap(({ one, path }): YamlIssue[] => {
      if (typeof one !== 'string') return [];
      const key = one.trim().toLowerCase().replace(/\s+/g, '');
      const owner = owners.get(key);
      owners.set(key, owner ?? i);
      if (owner === undefined || owner === i) return [];
      const message = `"${one}" already names ${formatPath(['targets', owner])}; a name may belong to one target only`;
      return [{ path, message }];
    }),
  );
}

function namesOf({ name, aliases, panels }: Written, i: number): { one: unknown; path: (string | number)[] }[] {
  return [
    { one: name, path: ['targets', i, 'name'] },
    ...listOf(aliases).map((one, j) => ({ one, path: ['targets', i, 'aliases', j] })),
    ...listOf(panels).map((panel, j) => ({
      one: typeof panel === 'object' && panel !== null && 'name' in panel ? panel.name : undefined,
      path: ['targets', i, 'panels', j, 'name'],
    })),
  ];
}

function unknownKeys(value: object, path: readonly (string | number)[], known: readonly string[]): UnknownKey[] {
  return Object.keys(value)
    .filter((key) => !known.includes(key))
    .map((key) => ({
      path: [...path, key],
      what: 'is not a key of the goals file',
      hint: `keys here are ${known.join(', ')}`,
    }));
}
