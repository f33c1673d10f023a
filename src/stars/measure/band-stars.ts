/** The stars of one band, measured. */
import { itemAt, numbersOf } from '../../model/collections.js';
import type { Band } from '../pixels/bands.js';
import { apertureFlux, apertureRadius, closeRadius, HalfFlux } from './aperture.js';
import { type Mesh, measureMesh } from './background.js';
import { classify } from './classify.js';
import { markCrowded } from './crowded.js';
import { Detector } from './detect.js';
import type { FoundStar } from './found-star.js';
import { fillBetweenGreen } from './green.js';
import { missingShare } from './missing-share.js';
import { adaptiveShape, type Field, flatness, type Shape } from './moments.js';
import { ProfileFit } from './profile.js';
import { ringFwhm } from './ring.js';
import { peakOf } from './peak.js';
import { type Aperture, wingsOf } from './spike.js';
import { SMALL_FWHM, SmallStarFit, type SmallStar } from './small-star.js';

export interface BandOptions {
  readonly quantum: number;
  readonly parity: 0 | 1 | undefined;
  readonly framePixels: number;
  readonly electronsPerAdu: number | undefined;
  /** Maximum number of stars whose profile is fitted in this band. */
  readonly profiles: number;
  /** Samples from here on are saturated, as far as the header and the stored type indicate. */
  readonly saturation: number;
}

/** Initial guess of a star's variance, px²: FWHM 3 px. */
const FIRST_VARIANCE = 1.6;
/** Maximum number of sharp detections examined closely in one band; more are hot pixels. */
const SHARP_MAX = 400;
/** If more than this fraction of the apertures contains a hot pixel, they are removed: a median tolerates that many. */
const HOT_APERTURES = 0.03;
/** FWHM of a Gaussian in standard deviations: √(8 ln 2). */
export const FWHM_PER_SIGMA = 2.354820045;

export interface BandResult {
  readonly mesh: Mesh;
  readonly stars: FoundStar[];
  /** Saturated pixels inside stars. */
  readonly saturatedPixels: number;
  /** Fraction of the band without a number. */
  readonly missing: number;
}

type Candidate = Pick<FoundStar, 'kind' | 'peak' | 'plateau' | 'level' | 'noise'> & {
  readonly shape: Shape | undefined;
  readonly x: number;
  readonly y: number;
  readonly ringWidth: number | undefined;
  /** Already fitted, because the moments were insufficient. */
  readonly small: SmallStar | undefined;
};

/** Above this FWHM, px, stars count as swollen, and with fewer isolated ones than this they get smaller apertures. */
const SWOLLEN_FWHM = 6;
const ALONE_MIN = 5;

/** Measures band after band with reusable working memory. */
export class BandMeasurer {
  private readonly detector = new Detector();
  private readonly profileFit = new ProfileFit();
  private readonly smallFit = new SmallStarFit();
  private readonly halfFlux = new HalfFlux();

  /** @param usualFwhm of the bands before, px; asked for if this band has too few stars for an aperture */
  measure(band: Band, width: number, usualFwhm: () => number | undefined, options: BandOptions): BandResult {
    const height = band.end - band.first;
    const mesh = measureMesh(band.samples, width, band.first, options);
    // Inside the band rows count from 0.
    const parity = options.parity === undefined ? undefined : ((options.parity + band.first) & 1) === 0 ? 0 : 1;
    if (parity !== undefined) fillBetweenGreen(band.samples, width, parity);
    const field: Field = { samples: band.samples, width, height, parity };
    const { candidates, saturatedPixels, hot } = this.find(field, mesh, band, options);
    const fwhm = bandFwhm(candidates) ?? usualFwhm() ?? 3;
    let radius = apertureRadius(fwhm);
    const isHot = hot * Math.PI * radius * radius > HOT_APERTURES * (band.to - band.from) * width;
    const wings = isHot ? { fwhm } : undefined;
    let stars = withAperture(candidates, field, band.first, { radius, wings }, options);
    // Swollen stars are inside one another's apertures; their discs may still be separate.
    if (fwhm > SWOLLEN_FWHM && stars.length >= ALONE_MIN && stars.filter((s) => !s.crowded).length < ALONE_MIN) {
      radius = closeRadius(fwhm);
      stars = withAperture(candidates, field, band.first, { radius, wings }, options);
    }
    this.measureProfiles(stars, candidates, field, { radius, wings }, fwhm < SMALL_FWHM, options);
    return { mesh, stars, saturatedPixels, missing: missingShare(band) };
  }

  private find(
    field: Field,
    mesh: Mesh,
    band: Band,
    options: BandOptions,
  ): { candidates: Candidate[]; saturatedPixels: number; hot: number } {
    const candidates: Candidate[] = [];
    let hot = 0;
    let saturatedPixels = 0;
    let variance = FIRST_VARIANCE;
    let sharp = 0;
    this.detector.detect(field, mesh, band.from - band.first, band.to - band.first, (component) => {
      const found = classify(component, field, this.detector);
      if (found.kind === 'hot-pixel') hot++;
      if (found.places === undefined) return;
      const { level, noise, pixels, count } = component;
      for (let i = 0; i < count; i++)
        if ((field.samples[pixels[i] as number] as number) >= options.saturation) saturatedPixels++;
      for (const place of found.places) {
        const x = place % field.width;
        const y = (place - x) / field.width;
        const top = found.kind === 'ring' ? { peak: level + noise, plateau: 1 } : peakOf(field, x, y);
        const guess = found.kind === 'ring' ? count / (2 * Math.PI) : Math.max(variance, count / (8 * Math.PI));
        const settled = adaptiveShape(field, x, y, level, Math.min(guess, 60));
        if (settled === 'sharp' && ++sharp > SHARP_MAX) continue;
        const small = settled === 'sharp' ? this.smallFit.fit(field, x, y, level, noise) : undefined;
        if (settled === 'sharp' && small === undefined) continue;
        const shape = settled === 'sharp' ? small?.shape : settled;
        const ringWidth = found.kind === 'ring' ? ringFwhm(field, x, y, level) : undefined;
        const at = found.kind === 'star' && shape !== undefined ? shape : { x, y };
        const { kind } = found;
        const { peak, plateau } = top;
        candidates.push({ kind, peak, plateau, level, noise, shape, small, x: at.x, y: at.y, ringWidth });
        if (shape !== undefined && found.kind === 'star') variance += 0.05 * ((shape.xx + shape.yy) / 2 - variance);
      }
    });
    return { candidates, saturatedPixels, hot };
  }

  /** Fits the brightest isolated stars, in equal numbers in the left, middle and right third. */
  private measureProfiles(
    stars: readonly FoundStar[],
    candidates: readonly Candidate[],
    field: Field,
    { radius, wings }: Aperture,
    areSmall: boolean,
    options: BandOptions,
  ): void {
    const left = [options.profiles / 3, options.profiles / 3, options.profiles / 3];
    const alone = stars
      .flatMap((star, index) => {
        const candidate = candidates[index];
        const isFit = star.flux > 0 && !star.crowded && star.kind !== 'blend' && !isSaturated(star, options.saturation);
        return candidate !== undefined && isFit ? [{ star, candidate }] : [];
      })
      .sort((a, b) => b.star.flux - a.star.flux);
    for (const { star, candidate } of alone) {
      const third = Math.min(2, Math.floor((star.x * 3) / field.width));
      if (itemAt(left, third) <= 0) continue;
      const small =
        areSmall && candidate.kind === 'star'
          ? (candidate.small ?? this.smallFit.fit(field, candidate.x, candidate.y, candidate.level, candidate.noise))
          : undefined;
      if (areSmall && small === undefined) continue;
      const shape = small?.shape ?? candidate.shape;
      const fwhm =
        small?.fwhm ??
        candidate.ringWidth ??
        (shape === undefined ? undefined : this.profileFit.fit(field, shape, candidate.level)?.fwhm);
      if (fwhm === undefined) continue;
      left[third] = itemAt(left, third) - 1;
      star.fwhm = fwhm;
      if (small !== undefined) {
        star.moments = { xx: small.shape.xx, xy: small.shape.xy, yy: small.shape.yy };
        star.ownFwhm = small.ownFwhm;
        // Moments of a star hardly wider than a pixel may settle on the middle of one, half a pixel off.
        star.x += small.shape.x - candidate.x;
        star.y += small.shape.y - candidate.y;
      }
      if (candidate.shape !== undefined && small === undefined)
        star.flatness = flatness(field, candidate.shape, candidate.level);
      star.halfFlux = this.halfFlux.radius(
        field,
        small?.shape.x ?? candidate.x,
        small?.shape.y ?? candidate.y,
        candidate.level,
        radius,
        wingsOf(wings, candidate),
      );
    }
  }
}

function withAperture(
  candidates: readonly Candidate[],
  field: Field,
  firstRow: number,
  aperture: Aperture,
  options: BandOptions,
): FoundStar[] {
  const stars = candidates.map((candidate) => asStar(candidate, field, firstRow, aperture, options));
  markCrowded(stars, aperture.radius);
  return stars;
}

/** Whether a star's peak is clipped: at the sensor's limit, or flat. */
export function isSaturated(star: Pick<FoundStar, 'peak' | 'plateau' | 'level' | 'noise'>, limit: number): boolean {
  return star.peak >= limit || (star.plateau >= 4 && star.peak - star.level > 100 * star.noise);
}

function asStar(
  candidate: Candidate,
  field: Field,
  firstRow: number,
  { radius, wings }: Aperture,
  options: BandOptions,
): FoundStar {
  const { x, y, level, noise, shape } = candidate;
  const flux = apertureFlux(field, x, y, level, radius, wingsOf(wings, candidate));
  const sky = Math.PI * radius * radius * noise * noise * (field.parity === undefined ? 1 : 2);
  const photons = options.electronsPerAdu === undefined ? 0 : Math.max(0, flux) / options.electronsPerAdu;
  return {
    x,
    y: y + firstRow,
    kind: candidate.kind,
    peak: candidate.peak,
    plateau: candidate.plateau,
    level,
    noise,
    moments: shape === undefined ? undefined : { xx: shape.xx, xy: shape.xy, yy: shape.yy },
    flux,
    fluxUncertainty: Math.sqrt(sky + photons),
    crowded: candidate.kind === 'blend' || Number.isNaN(flux),
    fwhm: undefined,
    ownFwhm: undefined,
    halfFlux: undefined,
    flatness: undefined,
  };
}

/** Number of stars from which a band's usual width is estimated. */
const BRIGHTEST = 60;

const sigmaOf = ({ xx, xy, yy }: Shape): number => (xx * yy - xy ** 2) ** 0.25;

/** FWHM from the moments of the brightest single stars; sufficient for choosing an aperture. */
function bandFwhm(candidates: readonly Candidate[]): number | undefined {
  const rings = candidates.flatMap(({ ringWidth }) => (ringWidth === undefined ? [] : [ringWidth]));
  const single = candidates.filter(({ kind, shape }) => kind === 'star' && shape !== undefined);
  const faintest = numbersOf(single, ({ peak }) => peak)
    .sort()
    .at(-BRIGHTEST);
  const sizes = single.flatMap(({ shape, peak }) =>
    shape === undefined || peak < (faintest ?? -Infinity) ? [] : [FWHM_PER_SIGMA * sigmaOf(shape)],
  );
  const all = (rings.length > sizes.length ? rings : sizes).sort((a, b) => a - b);
  return all.length < 5 ? undefined : all[all.length >> 1];
}
