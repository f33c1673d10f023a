import { starCourse } from './star-course.js';

/** Level of the sky as it stands in the pixels, the camera's pedestal included. */
export const starBackground = starCourse({
  id: 'star-background',
  title: 'Background of each frame',
  axis: 'background, ADU',
  digits: 0,
  measure: ({ background }) => background,
});
