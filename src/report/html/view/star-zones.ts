/** How the width of the stars varies over each train's field: tilt and curvature, from frames read in full. */
import {
  counted,
  decimal,
  mean,
  median,
  ownValue,
  sensorScaleArcsec,
  type FrameStars,
  type Night,
  type Train,
} from '../../../model/index.js';

const CELL = { width: 84, height: 56 } as const;
/** Opacity of the widest zone's shading. */
export const DARKEST = 0.22;
/** Zones that differ by less than this fraction are not shaded: noise is no tilt. */
const LEAST_SPAN = 0.1;
const CORNERS = [0, 2, 6, 8] as const;
const CENTRE = 4;

export interface ZoneCell {
  readonly x: number;
  readonly y: number;
  readonly middleX: number;
  readonly textY: number;
  readonly noteY: number;
  readonly width: number;
  readonly height: number;
  readonly opacity: string;
  readonly text: string;
  /** Relative to the narrowest zone. */
  readonly note: string;
}

export interface ZoneMap {
  readonly train: string;
  readonly width: number;
  readonly height: number;
  readonly cells: readonly ZoneCell[];
  readonly alt: string;
  readonly caption: string;
}

/** One map a train of which frames were read in full; the first pixel lower left. */
export function zoneMaps(night: Night): ZoneMap[] {
  return night.gathered.trains.flatMap((train) => {
    const field = fieldOf(night, train);
    return field === undefined ? [] : [zoneMap(train, field)];
  });
}

/** A zone's width over all frames, px, and its standard error if known. */
interface ZoneWidth {
  readonly width: number;
  readonly error: number | undefined;
}

interface Field {
  readonly zones: readonly (ZoneWidth | undefined)[];
  readonly frames: number;
}

/**
 * Over the train's frames that are not lost; `undefined` if no zone has any. Each frame's zones are normalised by its
 * own FWHM: seeing and focus change through the night, and a zone need not have stars in every frame.
 */
function fieldOf(night: Night, train: Train): Field | undefined {
  const read = night.accounts.lights.flatMap(({ id, train: of, verdict }): Full[] => {
    const stars = of === train.id && verdict !== 'lost' ? ownValue(night.stars?.frames ?? {}, id) : undefined;
    return stars?.zones === undefined || stars.fwhm === null
      ? []
      : [{ ...stars, zones: stars.zones, fwhm: stars.fwhm }];
  });
  const usual = median(read.map(({ fwhm }) => fwhm));
  const zones = Array.from({ length: 9 }, (_, zone) => zoneOver(read, zone, usual));
  return zones.every((zone) => zone === undefined) ? undefined : { zones, frames: read.length };
}

type Full = FrameStars & { readonly zones: NonNullable<FrameStars['zones']>; readonly fwhm: number };

function zoneOver(frames: readonly Full[], zone: number, usual: number): ZoneWidth | undefined {
  const shares = frames.flatMap(({ zones, zoneUncertainties, fwhm }) => {
    const width = zones[zone];
    const error = zoneUncertainties?.[zone];
    return width == null ? [] : [{ share: width / fwhm, error: error == null ? undefined : error / fwhm }];
  });
  if (shares.length === 0) return undefined;
  const error = errorOfMean(shares);
  return {
    width: usual * median(shares.map(({ share }) => share)),
    error: error === undefined ? undefined : usual * error,
  };
}

function zoneMap(train: Train, { zones, frames }: Field): ZoneMap {
  const scale = sensorScaleArcsec(train);
  const widths = zones.flatMap((zone) => (zone === undefined ? [] : [zone.width]));
  const [least, most] = [Math.min(...widths), Math.max(...widths)];
  const cells = zones.map((one, zone): ZoneCell => {
    const x = (zone % 3) * CELL.width;
    const y = (2 - Math.floor(zone / 3)) * CELL.height;
    const share = one === undefined ? 0 : (one.width - least) / Math.max(most - least, LEAST_SPAN * least);
    return {
      x,
      y,
      ...CELL,
      middleX: x + CELL.width / 2,
      textY: y + CELL.height / 2,
      noteY: y + CELL.height / 2 + 16,
      opacity: (DARKEST * share).toFixed(3),
      text: one === undefined ? '–' : decimal(one.width * (scale ?? 1), 2),
      note:
        one === undefined
          ? ''
          : `+${percent(one.width / least - 1, one.error === undefined ? undefined : one.error / least)}`,
    };
  });
  const unit = scale === undefined ? 'px' : '″';
  const size = `${decimal(least * (scale ?? 1), 2)} to ${decimal(most * (scale ?? 1), 2)} ${unit}`;
  const shape = shapeText(zones);
  const rest = shape === '' ? '' : `. ${shape}`;
  return {
    train: train.id,
    width: 3 * CELL.width,
    height: 3 * CELL.height,
    cells,
    alt: `FWHM in nine zones of ${train.id}’s field: ${size}.${shape === '' ? '' : ` ${shape}.`}`,
    caption: `${train.id}, FWHM in ${unit}, ${counted(frames, 'frame')} read in full${rest}`,
  };
}

/**
 * Tilt from the difference of opposite sides, curvature from that of corners and centre; empty if a zone is missing.
 */
function shapeText(zones: readonly (ZoneWidth | undefined)[]): string {
  const all = zones.filter((zone) => zone !== undefined);
  if (all.length < zones.length) return '';
  const middle = mean(all.map(({ width }) => width));
  const across = contrast(all, [2, 5, 8], [0, 3, 6], middle);
  const up = contrast(all, [6, 7, 8], [0, 1, 2], middle);
  const corners = contrast(all, CORNERS, [CENTRE], all[CENTRE]?.width ?? middle);
  return `Tilt: right side ${across} of the left, top ${up} of the bottom; curvature: corners ${corners} of the centre`;
}

/** How much wider some zones are than others, as a fraction of a width, with its standard error if known. */
function contrast(all: readonly ZoneWidth[], of: readonly number[], against: readonly number[], width: number): string {
  const here = pick(all, of);
  const there = pick(all, against);
  const share = (mean(here.map((zone) => zone.width)) - mean(there.map((zone) => zone.width))) / width;
  const [a, b] = [errorOfMean(here), errorOfMean(there)];
  const error = a === undefined || b === undefined ? undefined : Math.hypot(a, b) / width;
  if (Math.abs(share) < 0.005 && (error === undefined || error < 0.005)) return 'within 1 %';
  return `${share < 0 ? '−' : '+'}${percent(Math.abs(share), error)}`;
}

function pick(all: readonly ZoneWidth[], places: readonly number[]): ZoneWidth[] {
  return all.filter((_, place) => places.includes(place));
}

/** `undefined` if one of them has none. */
function errorOfMean(parts: readonly { readonly error: number | undefined }[]): number | undefined {
  const errors = parts.flatMap(({ error }) => error ?? []);
  return errors.length < parts.length ? undefined : Math.hypot(...errors) / parts.length;
}

/** `10 ± 2 %`, for a fraction and its error; `10 %` if that is unknown or below a half. */
function percent(share: number, error: number | undefined): string {
  const beside = error !== undefined && error >= 0.005 ? ` ± ${decimal(error * 100, 0)}` : '';
  return `${decimal(share * 100, 0)}${beside} %`;
}
