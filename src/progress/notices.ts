/** Caveats about the figures. */
import {
  formatSource,
  groupBy,
  itemAt,
  listed,
  separationDeg,
  targetKey,
  wholeOfPanel,
  type ArchivedSite,
  type NightSummary,
  type TargetProgress,
  type Warning,
} from '../model/index.js';

/** Closer fields may be one target under two names. */
export const NEAR_DUPLICATE_DEG = 0.5;
/** Trains whose pixel scales differ by more than this do not collect the same detail in the same time. */
const SCALE_RATIO = 1.2;

type Placed = TargetProgress & { readonly raDeg: number; readonly decDeg: number };

/**
 * Targets so close that they may be one. They are proposed, never joined: a mosaic has such targets too. Its panels, by
 * their names, are not proposed at all.
 */
export function nearDuplicates(targets: readonly TargetProgress[]): Warning[] {
  const placed = targets.flatMap((t) => (t.place ? [{ ...t, ...t.place }] : []));
  return groupsOf(placed).map((group): Warning => {
    // The name with the goal stays, and so does every other name of all.
    const one = group.find(({ goalMs }) => goalMs !== null) ?? itemAt(group, 0);
    const others = group.filter((other) => other !== one);
    const aliases = [...one.otherNames, ...others.flatMap((other) => [other.name, ...other.otherNames])];
    const apart = Math.max(...group.flatMap((a) => group.map((b) => apartDeg(a, b)))).toFixed(2);
    const where = group.length === 2 ? `lie ${apart}° apart` : `lie within ${apart}° of each other`;
    return {
      code: 'near-duplicate-targets',
      message:
        `${listed(group.map(({ name }) => `"${name}"`))} ${where}: if they are one target, count them together with ` +
        `{ name: ${inYaml(one.name)}, aliases: [ ${aliases.map(inYaml).join(', ')} ] } in goals.yaml`,
    };
  });
}

/** Targets each of which is near another of its group, in order. */
function groupsOf(placed: readonly Placed[]): Placed[][] {
  const groups: Placed[][] = [];
  for (const target of placed) {
    const near = groups.filter((group) => group.some((other) => isNear(target, other)));
    for (const group of near) groups.splice(groups.indexOf(group), 1);
    groups.push([...near.flat(), target]);
  }
  return groups.filter(({ length }) => length > 1);
}

function isNear(a: Placed, b: Placed): boolean {
  const [whole, other] = [wholeOfPanel(a.name), wholeOfPanel(b.name)];
  const isMosaic = whole !== null && other !== null && targetKey(whole) === targetKey(other);
  return !isMosaic && apartDeg(a, b) <= NEAR_DUPLICATE_DEG;
}

const apartDeg = (a: Placed, b: Placed): number => separationDeg(a.raDeg, a.decDeg, b.raDeg, b.decDeg);

/** A name as it may stand in YAML: quoted if a mark could be read as part of the syntax. */
function inYaml(name: string): string {
  return /^\p{L}[\p{L}\p{N} .'’()/+-]*$/u.test(name) ? name : JSON.stringify(name);
}

/** Nights of several sites in one archive. */
export function severalSites(
  nights: readonly NightSummary[],
  siteKey: (night: NightSummary) => string | null,
): Warning[] {
  const sites = groupBy(
    nights.filter((n) => n.site !== null),
    siteKey,
  );
  if (sites.size < 2) return [];
  const lasts = [...sites.values()].flatMap((own) => {
    const site = own.at(-1)?.site;
    return site ? [{ site, nights: own.length }] : [];
  });
  const named = lasts.map(({ site, nights: count }) => {
    const isAlone = lasts.filter((other) => other.site.name === site.name).length === 1;
    const name = site.name ?? 'a site without a name';
    return `${name}${isAlone ? '' : ` at ${placeOf(site)}`} (${count})`;
  });
  return [
    {
      code: 'several-sites',
      message:
        `the archive holds nights of ${sites.size} sites: ${named.join(', ')}; integration is summed over all ` +
        'of them, and the outlook is for the one with most nights',
    },
  ];
}

/** Sites with the same name are distinguished by their location, to a tenth of a degree: `40.4° N, 1.1° W`. */
function placeOf({ latitudeDeg, longitudeDeg }: Pick<ArchivedSite, 'latitudeDeg' | 'longitudeDeg'>): string {
  const degrees = (deg: number, [plus, minus]: readonly [string, string]): string =>
    `${Math.abs(deg).toFixed(1)}° ${deg < 0 ? minus : plus}`;
  return `${degrees(latitudeDeg, ['N', 'S'])}, ${degrees(longitudeDeg, ['E', 'W'])}`;
}

/** Nights with an unknown site: they have no darkness. */
export function unknownSites(nights: readonly NightSummary[]): Warning[] {
  const unknown = nights.filter((n) => n.site === null);
  const [first] = unknown;
  if (!first) return [];
  return [
    {
      code: 'site-unknown',
      message:
        `${unknown.length} night${unknown.length === 1 ? '' : 's'} without a site ` +
        `(${formatSource({ file: first.file })}${unknown.length > 1 ? ', …' : ''}) ` +
        `count${unknown.length === 1 ? 's' : ''} in integration, but not in dark hours and not in the outlook's ` +
        'pace; name the site in the rig file and report the night again',
      count: unknown.length,
    },
  ];
}

/** Goals shared by trains with different detail. */
export function unlikeScales(nights: readonly NightSummary[], targets: readonly TargetProgress[]): Warning[] {
  if (!targets.some((t) => t.lines.some((l) => l.goalMs !== null && l.train === null))) return [];
  const scales = new Map(
    nights.flatMap((n) =>
      n.trains.flatMap((t) => (t.pixelScaleArcsec === undefined ? [] : [[t.id, t.pixelScaleArcsec] as const])),
    ),
  );
  const values = [...scales.values()];
  if (values.length < 2 || Math.max(...values) / Math.min(...values) <= SCALE_RATIO) return [];
  const list = [...scales].map(([train, scale]) => `${train} ${scale.toFixed(2)}″`).join(', ');
  return [
    {
      code: 'unlike-pixel-scales',
      message:
        'hours of all trains count together towards a common goal, although their pixel scales differ ' +
        `(${list}); give goalsPerTrain to count them separately`,
    },
  ];
}

/** Exposures of one train that overlap by more than this are contradictory, ms. */
const OVERLAP_MS = 2000;

/** Nights in which one train exposes for longer than possible: a clock was set during it. */
export function impossibleNights(nights: readonly NightSummary[]): Warning[] {
  return nights.flatMap((night): Warning[] => {
    const used = night.used ? night.used.endMs - night.used.startMs : 0;
    const worst = night.trains
      .map(({ id }) => ({
        id,
        ms: night.totals.filter((t) => t.train === id).reduce((all, t) => all + t.ms.taken, 0) - used,
      }))
      .find(({ ms }) => ms > OVERLAP_MS);
    if (!worst) return [];
    return [
      {
        code: 'clock-jump',
        message:
          `${night.file}: ${worst.id} exposed ${Math.round(worst.ms / 60_000)} minutes more than fit between ` +
          `its first light and its last: its clock was set while it ran, or two rigs share the train's name; ` +
          'integration is taken from the headers unchanged',
        source: { file: night.file },
      },
    ];
  });
}
