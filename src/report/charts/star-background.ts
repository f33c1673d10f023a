import { starCourse } from './star-course.js';

/** Sky level in the pixels, including the camera's pedestal. */
export const starBackground = starCourse({
  id: 'star-background',
  title: 'Background of each frame',
  axis: 'background, ADU',
  digits: 0,
  measure: ({ background }) => background,
});
