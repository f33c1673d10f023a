import { lightsOf, median, ownValue, type Night } from '../../../model/index.js';

/** More trailed frames than this share are not a few. */
const FEW = 0.05;

/** Whether a train's stars were measured in most of its lights, and are round in nearly all of them. */
export function hasRoundStars(night: Night, train: string): boolean {
  const { rules } = night.gathered;
  const lights = lightsOf(night, train);
  const shapes = lights.flatMap(({ id }) => {
    const { count = 0, elongation = null } = ownValue(night.stars?.frames ?? {}, id) ?? {};
    return elongation === null || count < rules.minimumStars ? [] : [elongation];
  });
  const trailed = lights.filter(({ causes }) =>
    causes.some(({ kind }) => kind === 'trailed' || kind === 'mount-motion'),
  );
  return (
    lights.length > 0 &&
    shapes.length >= lights.length / 2 &&
    median(shapes) < rules.trailedDoubtfulElongation &&
    trailed.length <= FEW * lights.length
  );
}
