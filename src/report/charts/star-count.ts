import { starCourse } from './star-course.js';

/** Stars found in the pixels read. */
export const starCount = starCourse({
  id: 'star-count',
  title: 'Stars found in each frame',
  axis: 'stars',
  digits: 0,
  scale: { min: 0 },
  measure: ({ count }) => count,
});
