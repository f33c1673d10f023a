/** How the width of the stars changes over each train's field: tilt and curvature, from frames read in full. */
import {
  counted,
  decimal,
  mean,
  median,
  ownValue,
  sensorScaleArcsec,
  type Night,
  type Train,
} from '../../../model/index.js';

const CELL = { width: 84, height: 56 } as const;
/** Opacity of the widest zone's shade. */
const DARKEST = 0.32;
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
  /** Against the narrowest zone. */
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
    const zones = zonesOf(night, train);
    return zones === undefined ? [] : [zoneMap(train, zones.widths, zones.frames)];
  });
}

/** Medians over the train's frames that are not lost, px; `undefined` where no zone has any. */
function zonesOf(night: Night, train: Train): { widths: (number | undefined)[]; frames: number } | undefined {
  const read = night.accounts.lights.flatMap(({ id, train: of, verdict }) => {
    const zones = of === train.id && verdict !== 'lost' ? ownValue(night.stars?.frames ?? {}, id)?.zones : undefined;
    return zones === undefined ? [] : [zones];
  });
  const widths = Array.from({ length: 9 }, (_, zone) => {
    const known = read.flatMap((zones) => zones[zone] ?? []);
    return known.length === 0 ? undefined : median(known);
  });
  return widths.every((width) => width === undefined) ? undefined : { widths, frames: read.length };
}

function zoneMap(train: Train, widths: readonly (number | undefined)[], frames: number): ZoneMap {
  const scale = sensorScaleArcsec(train);
  const known = widths.filter((width) => width !== undefined);
  const [least, most] = [Math.min(...known), Math.max(...known)];
  const cells = widths.map((width, zone): ZoneCell => {
    const x = (zone % 3) * CELL.width;
    const y = (2 - Math.floor(zone / 3)) * CELL.height;
    const share = width === undefined || most === least ? 0 : (width - least) / (most - least);
    return {
      x,
      y,
      ...CELL,
      middleX: x + CELL.width / 2,
      textY: y + CELL.height / 2,
      noteY: y + CELL.height / 2 + 16,
      opacity: (DARKEST * share).toFixed(3),
      text: width === undefined ? '–' : decimal(width * (scale ?? 1), 2),
      note: width === undefined ? '' : `+${decimal((width / least - 1) * 100, 0)} %`,
    };
  });
  const unit = scale === undefined ? 'px' : '″';
  const size = `${decimal(least * (scale ?? 1), 2)} to ${decimal(most * (scale ?? 1), 2)} ${unit}`;
  const shape = shapeText(widths);
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

/** Tilt as the opposite sides differ, curvature as the corners do from the centre; empty where a zone is missing. */
function shapeText(widths: readonly (number | undefined)[]): string {
  const all = widths.filter((width) => width !== undefined);
  if (all.length < widths.length) return '';
  const middle = mean(all);
  const of = (...zones: readonly number[]): number => mean(all.filter((_, zone) => zones.includes(zone)));
  const across = (of(2, 5, 8) - of(0, 3, 6)) / middle;
  const up = (of(6, 7, 8) - of(0, 1, 2)) / middle;
  const corners = of(...CORNERS) / of(CENTRE) - 1;
  return (
    `Tilt: right side ${signed(across)} of the left, top ${signed(up)} of the bottom; ` +
    `curvature: corners ${signed(corners)} of the centre`
  );
}

function signed(share: number): string {
  const percent = decimal(Math.abs(share) * 100, 0);
  return percent === '0' ? 'within 1 %' : `${share < 0 ? '−' : '+'}${percent} %`;
}
