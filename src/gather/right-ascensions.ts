/**
 * Plain numbers below 24 as right ascensions in a rig file. They are degrees, as in the standard, but some users write
 * hours: the headers of the target's frames show which, else the other numbers.
 */
import type { Rig, TargetConfig } from '../config/index.js';
import { listed, separationDeg, targetKey, type HeaderFrame, type Target, type Warning } from '../model/index.js';

const HOUR_DEG = 15;
/** A field's centre lies this near to its target, degrees: common practice, no source. */
const NEAR_DEG = 5;

type Reading = 'degrees' | 'hours' | 'open';
type Place = Pick<Target, 'raDeg' | 'decDeg'>;

/** The rig with the right ascensions of its targets in degrees, and which were taken for hours or are undecided. */
export function withRightAscensions(
  rig: Rig,
  headers: readonly HeaderFrame[],
): { readonly rig: Rig; readonly warnings: Warning[] } {
  const read = rig.targets.map((target) => ({ target, reading: byFrames(target, headers) }));
  const habit = habitOf(read);
  const settled = read.map(({ target, reading }) => ({
    target,
    reading: reading === 'open' && mayBeHours(target) ? habit : reading,
  }));
  const of = (wanted: Reading): TargetConfig[] =>
    settled.flatMap(({ target, reading }) => (reading === wanted && mayBeHours(target) ? [target] : []));
  return {
    rig: { ...rig, targets: settled.map(({ target, reading }) => decided(target, reading)) },
    warnings: [...takenAsHours(of('hours')), ...leftOpen(of('open'))],
  };
}

/** The same for a night that is judged again: as its targets were read then. */
export function rightAscensionsAsBefore(rig: Rig, before: readonly Target[]): Rig {
  return {
    ...rig,
    targets: rig.targets.map((target) => {
      const keys = keysOf(target);
      const places = before.filter(({ name, aliases }) => [name, ...aliases].some((one) => keys.has(targetKey(one))));
      return decided(target, readingBy(target, places));
    }),
  };
}

const mayBeHours = ({ isPlainRa, raDeg }: TargetConfig): boolean => isPlainRa === true && raDeg > 0 && raDeg < 24;

const inHours = (target: TargetConfig): TargetConfig => ({ ...target, raDeg: target.raDeg * HOUR_DEG });

/** A target whose right ascension is degrees for good: how it was written is no longer of use. */
function decided(target: TargetConfig, reading: Reading): TargetConfig {
  const { name, aliases, raDeg, decDeg, origin, goals } = reading === 'hours' ? inHours(target) : target;
  return { name, aliases, raDeg, decDeg, origin, goals };
}

const keysOf = ({ name, aliases }: Target): ReadonlySet<string> => new Set([name, ...aliases].map(targetKey));

function byFrames(target: TargetConfig, headers: readonly HeaderFrame[]): Reading {
  const keys = keysOf(target);
  return readingBy(
    target,
    headers.flatMap(({ target: name, pointing }) =>
      name !== undefined && pointing !== undefined && keys.has(targetKey(name)) ? [pointing] : [],
    ),
  );
}

/** How a number reads by where the frames point; the nearer of two that both could be. */
function readingBy(target: TargetConfig, places: readonly Place[]): Reading {
  if (!mayBeHours(target)) return 'degrees';
  const off = ({ raDeg, decDeg }: Place): number[] =>
    places.map((one) => separationDeg(raDeg, decDeg, one.raDeg, one.decDeg)).sort((a, b) => a - b);
  const middle = (all: readonly number[]): number => all[Math.floor(all.length / 2)] ?? Infinity;
  const [asDegrees, asHours] = [middle(off(target)), middle(off(inHours(target)))];
  if (Math.min(asDegrees, asHours) > NEAR_DEG) return 'open';
  return asHours < asDegrees ? 'hours' : 'degrees';
}

/** How the others are read: who writes hours for one target does so for all, and 24 and more are no hours. */
function habitOf(read: readonly { readonly target: TargetConfig; readonly reading: Reading }[]): Reading {
  const plain = read.filter(({ target }) => target.isPlainRa === true);
  if (plain.some(({ reading }) => reading === 'degrees')) return 'degrees';
  return plain.some(({ reading }) => reading === 'hours') ? 'hours' : 'open';
}

/** `05:35:17`, of degrees. */
function hoursText(raDeg: number): string {
  const seconds = Math.round((raDeg / HOUR_DEG) * 3600) % 86_400;
  const two = (value: number): string => String(Math.floor(value)).padStart(2, '0');
  return `${two(seconds / 3600)}:${two((seconds / 60) % 60)}:${two(seconds % 60)}`;
}

const named = (targets: readonly TargetConfig[], said: (target: TargetConfig) => string): string =>
  listed(targets.map((target) => `${target.name} (${said(target)})`));

function takenAsHours(targets: readonly TargetConfig[]): Warning[] {
  if (targets.length === 0) return [];
  const what = named(targets, (target) => `ra: ${target.raDeg}, read as "${hoursText(target.raDeg * HOUR_DEG)}"`);
  return [
    {
      code: 'right-ascension-in-hours',
      message:
        `the rig file has a right ascension in hours for ${what}: that is where the headers of the frames point. ` +
        'A plain number is degrees; write hours with colons, between quotation marks',
      count: targets.length,
    },
  ];
}

function leftOpen(targets: readonly TargetConfig[]): Warning[] {
  if (targets.length === 0) return [];
  const what = named(
    targets,
    (target) => `ra: ${target.raDeg}; if it is hours, write "${hoursText(target.raDeg * HOUR_DEG)}"`,
  );
  return [
    {
      code: 'right-ascension-open',
      message:
        `a right ascension below 24 without colons may be degrees or hours, and no header says where the frames ` +
        `point: degrees were assumed for ${what}. Altitudes, Moon and plans depend on it`,
      count: targets.length,
    },
  ];
}
