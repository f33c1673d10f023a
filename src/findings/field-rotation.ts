/** Field rotation during a sub: stars far from the guide star become arcs. */
import { CAUTION, groupBy, type FieldRotation, type TrainPointing } from '../model/index.js';
import type { FindingModule } from './finding.js';

type Turning = TrainPointing & { readonly rotation: FieldRotation };

export const fieldRotation: FindingModule<{ readonly harmlessPx: number; readonly errors: number }> = {
  id: 'field-rotation',
  title: 'Rotation of the field',
  needs: ['frame-rotations'],
  // Half a pixel is common practice, no source.
  defaults: { harmlessPx: 0.5, errors: 3 },
  find(night, { harmlessPx, errors }) {
    const turning = (night.stars?.pointings ?? []).filter(
      (one): one is Turning =>
        one.rotation !== null && Math.abs(one.rotation.degPerHour) >= errors * one.rotation.uncertaintyDegPerHour,
    );
    // One mount rotates the fields of all its trains: the train that shows it most represents its target.
    return [...groupBy(turning, ({ target }) => target).values()].flatMap((own) => {
      const [most] = [...own].sort((a, b) => b.rotation.cornerTrailPx - a.rotation.cornerTrailPx);
      if (!most || most.rotation.cornerTrailPx < harmlessPx) return [];
      const { rotation, train, target } = most;
      return [
        {
          title:
            `The field of ${target} turned by ${Math.abs(rotation.degPerHour).toFixed(3)}° per hour: ` +
            `${rotation.cornerTrailPx.toFixed(1)} px per sub in the corners of ${train}’s frames`,
          costMs: 0,
          price: `${rotation.cornerTrailPx.toFixed(1)} px in the corners`,
          evidence: [
            ...own.map(
              (one) =>
                `${one.train}: ${one.rotation.degPerHour.toFixed(4).replace('-', '−')}° ± ` +
                `${one.rotation.uncertaintyDegPerHour.toFixed(4)}° per hour over ${one.rotation.frames} frames`,
            ),
            ...polar(rotation),
          ],
          advice:
            'Realign the polar axis, and measure this figure again on a night with the same target: ' +
            'refraction, flexure and a slipping camera turn fields as well.',
          confidence: own.length > 1 ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Pointing of the pair', anchor: 'pair' }],
          caution: CAUTION,
        },
      ];
    });
  },
};

function polar({ polarErrorAtLeastArcmin: least }: FieldRotation): readonly string[] {
  return least === null
    ? [
        'what this says about polar alignment is not known: the target’s declination is missing or within 5° ' +
          'of the pole',
      ]
    : [`if nothing else turns the field, the polar axis is off by ${least.toFixed(1)}′ or more`];
}
