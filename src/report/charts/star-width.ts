import { sensorScaleArcsec } from '../../model/index.js';
import { starCourse } from './star-course.js';

/** Full width at half maximum on the sky; nothing is drawn for trains without a known scale. */
export const starWidth = starCourse({
  id: 'star-width',
  title: 'Width of the stars (FWHM)',
  axis: 'FWHM, arcsec',
  digits: 1,
  measure: ({ fwhm }, _frame, train) => {
    const scale = sensorScaleArcsec(train);
    return fwhm === null || scale === undefined ? null : fwhm * scale;
  },
});
