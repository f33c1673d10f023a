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
import { ConfigError, parseYaml, validate, type YamlFile } from './yaml-file.js';

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
  const raw = validate(name, yaml, schema);
  const problems = repeatedNames(name, yaml, raw.targets);
  if (problems.length > 0) throw new ConfigError(problems);
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
    warnings: [
      ...unknownKeys(name, yaml, yaml.value, [], KEYS),
      ...raw.targets.flatMap((_, i) => unknownTargetKeys(name, yaml, i)),
    ],
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

/** A name that means two targets would count frames twice. */
function repeatedNames(
  name: string,
  yaml: YamlFile,
  targets: readonly { name: string; aliases: readonly string[]; panels?: readonly { name: string }[] }[],
): string[] {
  const owners = new Map<string, number>();
  return targets.flatMap((t, i) =>
    [t.name, ...t.aliases, ...(t.panels ?? []).map((panel) => panel.name)].flatMap((one, j) => {
      const key = one.trim().toLowerCase().replace(/\s+/g, '');
      const owner = owners.get(key);
      owners.set(key, owner ?? i);
      if (owner === undefined || owner === i) return [];
      const path =
        j === 0
          ? ['targets', i, 'name']
          : j <= t.aliases.length
            ? ['targets', i, 'aliases', j - 1]
            : ['targets', i, 'panels', j - 1 - t.aliases.length, 'name'];
      return [
        `${name}:${yaml.lineOf(path)}: ${formatPath(path)} "${one}" names ${formatPath(['targets', owner])} already; ` +
          'a name may belong to one target only',
      ];
    }),
  );
}

function unknownTargetKeys(name: string, yaml: YamlFile, index: number): Warning[] {
  const targets: unknown = Object.entries(yaml.value ?? {}).find(([key]) => key === 'targets')?.[1];
  const one: unknown = Array.isArray(targets) ? targets[index] : undefined;
  return typeof one === 'object' && one !== null ? unknownKeys(name, yaml, one, ['targets', index], TARGET_KEYS) : [];
}

function unknownKeys(
  name: string,
  yaml: YamlFile,
  value: object,
  path: readonly (string | number)[],
  known: readonly string[],
): Warning[] {
  return Object.keys(value).flatMap((key) => {
    if (known.includes(key)) return [];
    const here = [...path, key];
    const place = formatPath(here);
    return [
      {
        code: 'unknown-goals-key',
        message: `${place} is not a key of the goals file and was ignored; keys here are ${known.join(', ')}`,
        source: { file: name, line: yaml.lineOf(here) },
      },
    ];
  });
}
