import { starCourse } from './star-course.js';

/** Light of the same stars relative to the best third of their group; not corrected for air mass. */
export const starFlux = starCourse({
  id: 'star-flux',
  title: 'Light of the stars',
  axis: 'share of the best third',
  digits: 2,
  scale: { min: 0, suggestedMax: 1.1 },
  measure: ({ flux }) => flux,
});
