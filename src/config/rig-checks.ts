/**
 * What a rig file's schema does not see: ids used twice, references to trains that do not exist. Made on the value as
 * written, so that these are reported beside whatever else is wrong.
 */
import { isObject, ownValue, type JsonObject } from '../model/index.js';
import type { YamlIssue } from './validate.js';

/** @param file the value of the rig file */
export function crossChecks(file: unknown): YamlIssue[] {
  const rig = asMap(file);
  const trains = listIn(rig, 'trains');
  return [...trainIssues(trains), ...guidingIssues(rig, trains), ...targetIssues(rig, trains)];
}

function trainIssues(trains: readonly JsonObject[]): YamlIssue[] {
  const ids = trains.map(({ id }) => id);
  const pilots = trains.filter(({ role }) => role === 'pilot').length;
  return [
    ...trains.flatMap((train, i): YamlIssue[] => {
      const { id } = train;
      const isRepeated = typeof id === 'string' && ids.indexOf(id) !== i;
      const isApart = trains.length === 1 || hasAny(train.frames) || hasAny(train.match);
      return [
        ...(isRepeated
          ? [{ path: ['trains', i, 'id'], message: `"${id}" is used twice; every train needs its own id` }]
          : []),
        ...(isApart
          ? []
          : [
              {
                path: ['trains', i],
                message:
                  `${typeof id === 'string' ? `("${id}") ` : ''}needs frames: [ globs ] or match: { KEYWORD: value } ` +
                  "to tell its frames from the other trains'",
              },
            ]),
      ];
    }),
    ...(pilots > 1
      ? [
          {
            path: ['trains'],
            message: 'has more than one pilot; only one computer steers the mount, the others are companions',
          },
        ]
      : []),
  ];
}

function guidingIssues(rig: JsonObject, trains: readonly JsonObject[]): YamlIssue[] {
  const { train } = asMap(rig.guiding);
  return typeof train === 'string' ? noneOf(train, trains, ['guiding', 'train'], `"${train}" `) : [];
}

function targetIssues(rig: JsonObject, trains: readonly JsonObject[]): YamlIssue[] {
  return listIn(rig, 'targets').flatMap((target, i): YamlIssue[] => {
    const [hasRa, hasDec] = [target.ra, target.dec].map((value) => value !== undefined && value !== null);
    return [
      ...(hasRa === hasDec
        ? []
        : [
            {
              path: ['targets', i],
              message:
                `${typeof target.name === 'string' ? `("${target.name}") ` : ''}has ` +
                `${hasRa ? 'ra but no dec' : 'dec but no ra'}: give both, or neither if the headers of its ` +
                'frames have them',
            },
          ]),
      ...Object.keys(asMap(target.goalsPerTrain)).flatMap((train) =>
        noneOf(train, trains, ['targets', i, 'goalsPerTrain', train], ''),
      ),
    ];
  });
}

/** A reference to a train that does not exist; none where an id is missing, as it may be the one referred to. */
function noneOf(train: string, trains: readonly JsonObject[], path: YamlIssue['path'], named: string): YamlIssue[] {
  const ids = trains.flatMap(({ id }) => (typeof id === 'string' ? [id] : []));
  if (ids.length === 0 || ids.length < trains.length || ids.includes(train)) return [];
  return [{ path, message: `${named}is none of the trains (${[...new Set(ids)].join(', ')})` }];
}

function hasAny(value: unknown): boolean {
  if (Array.isArray(value)) return value.length > 0;
  return value !== null && typeof value === 'object' ? Object.keys(value).length > 0 : Boolean(value);
}

function listIn(map: JsonObject, key: string): JsonObject[] {
  const value = ownValue(map, key);
  return Array.isArray(value) ? value.map(asMap) : [];
}

function asMap(value: unknown): JsonObject {
  return isObject(value) ? value : {};
}
