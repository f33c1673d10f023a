/**
 * The rig file: YAML text in, validated `Rig` out.
 */
import type { z } from 'zod';
import { ownValue, RULES, rulesFrom, type Site, type Warning } from '../model/index.js';
import { withoutEmptyKeys } from './empty-keys.js';
import { placeZone } from './place-zone.js';
import { KNOWN_KEYS, OPEN_MAPS, rigSchema, toGoals } from './rig-schema.js';
import type { Rig, TargetConfig, TrainConfig } from './types.js';
import { crossChecks } from './rig-checks.js';
import { ignoredKeys, validate, type UnknownKey } from './validate.js';
import { ConfigError, parseYaml } from './yaml-file.js';

type RawRig = z.output<typeof rigSchema>;

/**
 * Reads a rig file's text.
 *
 * @param name the file's name for messages
 * @throws ConfigError naming every problem with line, path and fix
 */
export function parseRig(name: string, text: string): { rig: Rig; warnings: Warning[] } {
  const yaml = parseYaml(name, text);
  if (yaml.value === null || typeof yaml.value !== 'object' || Array.isArray(yaml.value)) {
    throw new ConfigError([`${name}: is empty or not a mapping; \`nightledger init\` writes a starter`]);
  }
  const unknown = unknownKeys(yaml.value);
  const raw = validate(name, { ...yaml, value: withoutEmptyKeys(yaml.value) }, rigSchema, {
    wrong: crossChecks(yaml.value),
    unknown,
  });
  return { rig: toRig(raw), warnings: ignoredKeys(name, yaml, unknown, 'unknown-rig-key') };
}

function toRig(raw: RawRig): Rig {
  const hasPilot = raw.trains.some((t) => t.role === 'pilot');
  const trains = raw.trains.map(
    (t, i): TrainConfig => ({
      id: t.id,
      role: t.role ?? (!hasPilot && i === 0 ? 'pilot' : 'companion'),
      focalLengthMm: t.telescope.focalLength,
      apertureMm: t.telescope.aperture,
      pixelSizeUm: t.camera.pixelSize,
      readNoiseElectrons: t.camera.readNoise,
      gainElectronsPerAdu: t.camera.gain,
      darkCurrentElectronsPerSecond: t.camera.darkCurrent,
      filterWidthsNm: Object.fromEntries(
        Object.entries(t.filters).flatMap(([filter, { width }]) => (width === undefined ? [] : [[filter, width]])),
      ),
      filterNames: Object.keys(t.filters),
      filterWavelengthsNm: Object.fromEntries(
        Object.entries(t.filters).flatMap(([filter, { wavelength }]) =>
          wavelength === undefined ? [] : [[filter, wavelength]],
        ),
      ),
      filterZenithSkies: Object.fromEntries(
        Object.entries(t.filters).flatMap(([filter, { zenithSky }]) =>
          zenithSky === undefined ? [] : [[filter, zenithSky]],
        ),
      ),
      throughput: t.throughput,
      frames: t.frames,
      match: t.match,
      logs: t.logs,
      headerTimeZone: t.headerTimeZone ?? t.zone,
      logTimeZone: t.zone,
      clockAheadSeconds: t.clockOffset,
    }),
  );
  const pilot = trains.find((t) => t.role === 'pilot') ?? trains[0];
  const unplaced = raw.targets
    .filter((t) => t.ra === undefined)
    .map((t) => ({ name: t.name, aliases: t.aliases, goals: toGoals(t) }));
  return {
    site: raw.site ? toSite(raw.site) : null,
    darkness: raw.darkness,
    darkSkyMagArcsec2: raw.darkSky,
    referenceSubSeconds: raw.referenceSub,
    trains,
    guiding: raw.guiding
      ? {
          source: raw.guiding.source,
          train: raw.guiding.train ?? (raw.guiding.source === 'off-axis' ? pilot?.id : undefined),
          logs: raw.guiding.logs,
        }
      : null,
    targets: raw.targets.flatMap((t): TargetConfig[] =>
      t.ra === undefined || t.dec === undefined
        ? []
        : [
            {
              name: t.name,
              aliases: t.aliases,
              raDeg: t.ra.deg,
              decDeg: t.dec,
              origin: 'rig-file',
              goals: toGoals(t),
              ...(t.ra.isPlain ? { isPlainRa: true } : {}),
            },
          ],
    ),
    ...(unplaced.length > 0 ? { unplaced } : {}),
    rules: rulesFrom((_row, name) => raw.rules[RULES[name].key]),
    keywords: raw.keywords,
    filterAliases: Object.fromEntries(
      Object.entries(raw.filters).flatMap(([name, aliases]) => aliases.map((a) => [a, name])),
    ),
    origin: 'rig-file',
  };
}

function toSite(raw: NonNullable<RawRig['site']>): Site {
  return {
    name: raw.name,
    latitudeDeg: raw.latitude,
    longitudeDeg: eastPositive(raw.longitude),
    elevationM: raw.elevation,
    timezone: raw.timezone ?? placeZone(raw.latitude, raw.longitude),
    minimumAltitudeDeg: raw.minimumAltitude,
    horizon: [...raw.horizon].sort((a, b) => a[0] - b[0]),
  };
}

/** −180…180; left untouched when it already is, so that no digits are lost. */
function eastPositive(longitudeDeg: number): number {
  return longitudeDeg > 180 ? longitudeDeg - 360 : longitudeDeg;
}

/** Keys only in the goals file: they concern the future, and a rig file describes one night. */
const OF_THE_GOALS_FILE: ReadonlySet<string> = new Set(['panels', 'priority', 'narrowband']);

function unknownKeys(file: unknown): UnknownKey[] {
  const unknown: UnknownKey[] = [];
  const visit = (value: unknown, path: readonly (string | number)[], pattern: string): void => {
    if (Array.isArray(value)) {
      value.forEach((item, i) => visit(item, [...path, i], pattern ? `${pattern}.*` : '*'));
    } else if (value !== null && typeof value === 'object') {
      const known = ownValue(KNOWN_KEYS, pattern);
      for (const [key, inner] of Object.entries(value)) {
        const here = [...path, key];
        if (known && !known.includes(key)) {
          unknown.push({
            path: here,
            what: 'is not a key of the rig file',
            hint: OF_THE_GOALS_FILE.has(key)
              ? 'it belongs in goals.yaml, in the archive (docs/archive.md)'
              : `keys here are ${known.join(', ')}`,
          });
        } else {
          visit(inner, here, pattern ? `${pattern}.${OPEN_MAPS.includes(pattern) ? '*' : key}` : key);
        }
      }
    }
  };
  visit(file, [], '');
  return unknown;
}
