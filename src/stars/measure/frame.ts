/** Measures the stars in one frame's pixels. */
import { numbersOf } from '../../model/collections.js';
import type { DoubledStars, FrameStars, Star, StarReading } from '../../model/index.js';
import { median } from '../../model/statistics.js';
import { NotMeasured } from '../not-measured.js';
import { bandsOf } from '../pixels/bands.js';
import { type OpenPixels, openPixels, PixelMemory } from '../pixels/open.js';
import { type SampleScale, sampleScale } from '../pixels/samples.js';
import type { FrameToMeasure, MeasuredFrame, StarList } from '../types.js';
import { BandMeasurer, FWHM_PER_SIGMA, isSaturated } from './band-stars.js';
import { type SecondImage, SecondImageFinder } from './doubled.js';
import type { FoundStar } from './found-star.js';
import { greenParity } from './green.js';
import { axesOf } from './moments.js';
import { fitForShape, type Scale, type StarShape, shapeOf, medianError, summarise } from './summary.js';
import { Surroundings } from './surroundings.js';
import { zoneWidths } from './zones.js';

/** Number of stars whose profiles are fitted: enough for 3 × 3 zones, or for a median. */
const PROFILES = { full: 405, strips: 168 } as const;
const LIST_LENGTH = 200;
/** With a larger fraction of pixels without a number, the rest is not usable. */
const MISSING_MAX = 0.5;

interface Reading {
  readonly stars: FoundStar[];
  readonly levels: number[];
  readonly noises: number[];
  readonly saturatedPixels: number;
  readonly readPixels: number;
}

/** Measures one frame after another with reusable working memory. */
export class FrameMeasurer {
  private readonly bands = new BandMeasurer();
  private readonly memory = new PixelMemory();
  private readonly surroundings = new Surroundings();
  private readonly secondImages = new SecondImageFinder();

  /** @throws NotMeasured if the pixels cannot be measured, and system errors of reading */
  async measure(frame: FrameToMeasure, by: StarReading): Promise<MeasuredFrame> {
    const pixels = await openPixels(frame.path, this.memory);
    try {
      return await this.measureOpen(pixels, frame, by);
    } finally {
      pixels.close();
    }
  }

  private async measureOpen(pixels: OpenPixels, frame: FrameToMeasure, by: StarReading): Promise<MeasuredFrame> {
    const { shape } = pixels;
    const scale = sampleScale(shape);
    const limit = saturationLimit(scale, frame);
    const reading = withoutParticles(await this.read(pixels, frame, by, scale, limit));
    const saturation = Math.min(limit, flatTop(reading.stars) ?? Infinity);
    const saturated = (star: FoundStar): boolean => isSaturated(star, saturation);
    const binning: Scale = frame.binning ?? { x: 1, y: 1 };
    const chosen = fitForShape(reading.stars, saturated);
    const shapes = new Map<FoundStar, StarShape>();
    for (const star of chosen) {
      const starShape = shapeOf(star, binning, frame.electronsPerAdu);
      if (starShape !== undefined) shapes.set(star, starShape);
    }
    const summary = summarise([...shapes.values()]);
    const { measured: _, halfFluxUncertainty, directionUncertainty, ...figures } = summary;
    const background = median(reading.levels);
    const second = this.secondImages.find(this.surroundings.all());
    const stars: FrameStars = {
      by,
      count: reading.stars.length,
      ...figures,
      background: scale.zero + background,
      noise: median(reading.noises),
      uncertainties: {
        halfFlux: halfFluxUncertainty,
        direction: directionUncertainty,
        background: errorOf(reading.levels),
        noise: errorOf(reading.noises),
        flux: null,
      },
      flux: null,
      saturated: background >= limit ? 1 : reading.saturatedPixels / reading.readPixels,
      shift: null,
      ...(second === undefined ? {} : { doubled: inSensorPixels(second, binning) }),
      ...(by === 'full' ? zoneWidths(shapes, shape.width, shape.height) : {}),
    };
    const list = {
      width: shape.width,
      height: shape.height,
      stars: brightest(reading.stars, shapes, binning, saturated),
    };
    return { stars, list: list satisfies StarList };
  }

  private async read(
    pixels: OpenPixels,
    frame: FrameToMeasure,
    by: StarReading,
    scale: SampleScale,
    limit: number,
  ): Promise<Reading> {
    const { width, height } = pixels.shape;
    const spans = bandsOf(height, by);
    const stars: FoundStar[] = [];
    const levels: number[] = [];
    const noises: number[] = [];
    let saturatedPixels = 0;
    let readPixels = 0;
    let missing = 0;
    const options = {
      quantum: scale.quantum,
      parity: greenParity(frame.bayerPattern),
      framePixels: width * height,
      electronsPerAdu: frame.electronsPerAdu,
      profiles: PROFILES[by] / spans.length,
      saturation: limit,
    };
    this.surroundings.begin();
    for await (const band of pixels.bands(spans)) {
      const result = this.bands.measure(band, width, () => usualFwhm(stars), options);
      stars.push(...result.stars);
      this.surroundings.add(result.stars, band, width, limit);
      for (const level of result.mesh.levels) if (!Number.isNaN(level)) levels.push(level);
      for (const noise of result.mesh.noises) if (!Number.isNaN(noise)) noises.push(noise);
      saturatedPixels += result.saturatedPixels;
      readPixels += band.samples.length;
      missing += result.missing / spans.length;
    }
    if (missing > MISSING_MAX || levels.length === 0)
      throw new NotMeasured('most of its pixels hold no number: the file is damaged or masked');
    return { stars, levels, noises, saturatedPixels, readPixels };
  }
}

/** No optics produce a star narrower than this fraction of the usual width: adjacent hot pixels, particle tracks. */
const PARTICLE_SHARE = 0.5;
/** Number of stars with a fitted profile from which the usual width is known. */
const USUAL_MIN = 10;

function withoutParticles(reading: Reading): Reading {
  const widths = reading.stars.flatMap((star) => (star.fwhm === undefined ? [] : (acrossOf(star) ?? [])));
  if (widths.length < USUAL_MIN) return reading;
  const least = PARTICLE_SHARE * median(widths);
  return { ...reading, stars: reading.stars.filter((star) => !((acrossOf(star) ?? Infinity) < least)) };
}

/** Standard deviation along the short axis, px as stored. */
function acrossOf({ moments }: FoundStar): number | undefined {
  return moments && Math.sqrt(Math.max(axesOf(moments.xx, moments.xy, moments.yy).short, 0));
}

function inSensorPixels({ x, y, share, significance }: SecondImage, binning: Scale): DoubledStars {
  return { x: x * binning.x, y: y * binning.y, share, significance };
}

function errorOf(values: readonly number[]): number | null {
  return values.length < 2 ? null : medianError(values);
}

function usualFwhm(stars: readonly FoundStar[]): number | undefined {
  const widths = stars.flatMap(({ fwhm }) => (fwhm === undefined ? [] : [fwhm]));
  return widths.length === 0 ? undefined : median(widths);
}

/** In samples: from the header, or the largest number of the stored type. */
function saturationLimit(scale: SampleScale, { saturationAdu }: FrameToMeasure): number {
  const stated = saturationAdu === undefined ? Infinity : (saturationAdu - scale.zero) * 0.995;
  return Math.min(stated, scale.greatest ?? Infinity);
}

/** The frame's largest sample if several stars are clipped there: the sensor's limit, whatever the header says. */
function flatTop(stars: readonly FoundStar[]): number | undefined {
  let top = -Infinity;
  for (const star of stars) if (star.kind !== 'ring' && star.peak > top) top = star.peak;
  const flat = stars.filter((star) => star.peak === top && star.plateau >= 2);
  return flat.length >= 2 ? top : undefined;
}

/** The brightest stars, in the conventions of the record: positions from 1, sizes in sensor pixels. */
function brightest(
  stars: readonly FoundStar[],
  shapes: ReadonlyMap<FoundStar, StarShape>,
  binning: Scale,
  isCut: (star: FoundStar) => boolean,
): Star[] {
  const usual = usualRatios(shapes);
  const fit = stars.filter((star) => star.flux > 0 && star.moments !== undefined && star.kind !== 'ring');
  // Plain numbers are sorted much faster than stars by their numbers.
  const faintest = numbersOf(fit, ({ flux }) => flux)
    .sort()
    .at(-LIST_LENGTH);
  return fit
    .filter(({ flux }) => faintest === undefined || flux >= faintest)
    .sort((a, b) => b.flux - a.flux)
    .slice(0, LIST_LENGTH)
    .flatMap((star) => {
      const shape =
        shapes.get(star) ?? shapeOf({ ...star, fwhm: star.fwhm ?? usual.fwhm * sigmaOf(star) }, binning, undefined);
      if (shape === undefined) return [];
      return {
        x: star.x + 1,
        y: star.y + 1,
        flux: star.flux,
        snr: star.flux / star.fluxUncertainty,
        fwhm: shape.fwhm,
        halfFlux: shape.halfFlux ?? usual.halfFlux * shape.fwhm,
        elongation: shape.elongation,
        direction: shape.direction,
        saturated: isCut(star),
      };
    });
}

function sigmaOf({ moments }: FoundStar): number {
  return moments === undefined ? NaN : Math.max(moments.xx * moments.yy - moments.xy ** 2, 0.01) ** 0.25;
}

/**
 * This frame's FWHM per standard deviation of the moments, and half-flux radius per FWHM; a Gaussian's without stars.
 */
function usualRatios(shapes: ReadonlyMap<FoundStar, StarShape>): { fwhm: number; halfFlux: number } {
  const perSigma: number[] = [];
  const perWidth: number[] = [];
  for (const [star, shape] of shapes) {
    if (star.moments !== undefined && star.fwhm !== undefined) perSigma.push(star.fwhm / sigmaOf(star));
    if (shape.halfFlux !== undefined) perWidth.push(shape.halfFlux / shape.fwhm);
  }
  return {
    fwhm: perSigma.length === 0 ? FWHM_PER_SIGMA : median(perSigma),
    halfFlux: perWidth.length === 0 ? 0.5 : median(perWidth),
  };
}
