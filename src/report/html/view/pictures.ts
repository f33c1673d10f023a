import { decimal, ownValue, sensorScaleArcsec, type Night, type Picture } from '../../../model/index.js';
import { frameName } from '../../figures/frame-name.js';
import { harmedRuns, runOfEach } from '../../figures/harmed-runs.js';
import type { ViewContext } from './context.js';

/** A picture with its description. */
export interface FieldView extends Picture {
  readonly alt: string;
  readonly caption: string;
}

export interface StripView {
  readonly anchor: string;
  readonly rows: readonly (FieldView & { readonly verdict: string })[];
}

export interface PicturesView {
  /** For the first screen. */
  readonly fields: readonly FieldView[];
  /** For the section on stars. */
  readonly strips: readonly StripView[];
}

/** The night's pictures with their captions; none if the night has none. */
export function picturesView({ night, palette }: ViewContext): PicturesView {
  const { pictures } = night;
  if (pictures === null) return { fields: [], strips: [] };
  const runOf = runOfEach(harmedRuns(night.accounts.lights));
  return {
    fields: pictures.fields.map(({ frame, train, target, filter, picture }): FieldView => {
      const width = widthText(night, frame, train);
      const what = [target, palette.filter(filter).label, train].filter((text) => text !== '').join(', ');
      return { ...picture, caption: `${what}${width}`, alt: `The sharpest frame of ${what}, stretched${width}.` };
    }),
    strips: pictures.strips.map(({ frame, beside, stars, picture, besidePicture }): StripView => {
      const row = (id: string, one: Picture): StripView['rows'][number] => {
        const light = night.accounts.lights.find((other) => other.id === id);
        const name = light === undefined ? id : frameName(light);
        const verdict = light?.verdict ?? 'kept';
        return {
          ...one,
          verdict,
          caption: `${name}, ${verdict}`,
          alt: `${stars} stars in ${name}, which is ${verdict}.`,
        };
      };
      return {
        anchor: `cause-${runOf.get(frame)?.first.id ?? frame}`,
        rows: [row(frame, picture), row(beside, besidePicture)],
      };
    }),
  };
}

/** `, FWHM 3.2″`. */
function widthText(night: Night, frame: string, trainId: string): string {
  const train = night.gathered.trains.find(({ id }) => id === trainId);
  const fwhm = ownValue(night.stars?.frames ?? {}, frame)?.fwhm;
  if (fwhm === undefined || fwhm === null) return '';
  const scale = train && sensorScaleArcsec(train);
  return scale === undefined ? `, FWHM ${decimal(fwhm, 1)} px` : `, FWHM ${decimal(fwhm * scale, 1)}″`;
}
