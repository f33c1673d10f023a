import { lightsOf, median, ownValue, type Night } from '../../../model/index.js';

/** More harmed frames than this share are not a few. Common practice, no source. */
const FEW = 0.02;
const MANY = 0.1;
/** What a dither during a sub does to stars. */
const HARMED: readonly string[] = ['trailed', 'doubled', 'swollen', 'mount-motion'];

/** What a train's stars say of dithers during its subs; `null` if they were not measured in most of its lights. */
export type DithersInStars = { readonly are: 'unseen' } | { readonly are: 'seen'; readonly frames: number } | null;

/** Whether dithers of another program show in a train's stars: none or nearly none, or so many frames. */
export function dithersInStars(night: Night, train: string): DithersInStars {
  const { rules } = night.gathered;
  const lights = lightsOf(night, train);
  const shapes = lights.flatMap(({ id }) => {
    const { count = 0, elongation = null } = ownValue(night.stars?.frames ?? {}, id) ?? {};
    return elongation === null || count < rules.minimumStars ? [] : [elongation];
  });
  if (shapes.length === 0 || shapes.length < lights.length / 2) return null;
  const harmed = lights.filter(({ causes }) => causes.some(({ kind }) => HARMED.includes(kind)));
  if (harmed.length >= MANY * lights.length) return { are: 'seen', frames: harmed.length };
  const isRound = median(shapes) < rules.trailedDoubtfulElongation && harmed.length <= FEW * lights.length;
  return isRound ? { are: 'unseen' } : null;
}
