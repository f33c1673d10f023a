import { starCourse } from './star-course.js';

/** Long axis by short axis: 1 is round. */
export const starElongation = starCourse({
  id: 'star-elongation',
  title: 'Elongation of the stars',
  axis: 'elongation, a/b',
  digits: 2,
  scale: { min: 1, suggestedMax: 1.3 },
  measure: ({ elongation }) => elongation,
});
