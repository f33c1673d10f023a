import { byRule, exposureCount, named, type Audit } from './drafted-night.js';

/** A larger excess of saved frames is not an accident. */
const MIN_SAVED = 8;
const MORE = 1.15;
const SPARE = 3;
/** Fraction of a rule's files that were saved before. */
const MOSTLY = 0.5;
/** With fewer exposures than this per saved frame, the log does not report exposures. */
const NEXT_TO_NONE = 0.1;
const NEARLY_ALL = 0.9;

/**
 * More frames saved than exposed: a file is saved once, and lines that name it again report something else, like rows
 * that always state the last file. If no exposures are reported and a line states a frame's filter, it reports the
 * exposure rather than the saving.
 */
export const savedAgain: Audit = ({ rules, drafted }) => {
  const saves = named(drafted, 'frame-saved');
  const exposures = exposureCount(drafted);
  if (saves.length < MIN_SAVED || saves.length <= MORE * exposures + SPARE) return [];
  const again = new Set<unknown>();
  const seen = new Set<string>();
  for (const one of saves) {
    const file = one.event.event === 'frame-saved' ? one.event.file : undefined;
    if (file === undefined) continue;
    if (seen.has(file)) again.add(one);
    seen.add(file);
  }
  const hasNoExposures = exposures < NEXT_TO_NONE * saves.length;
  return byRule(saves).flatMap(({ rule, event, own }) => {
    const repeated = own.filter((one) => again.has(one)).length;
    if (repeated > 0 && repeated >= MOSTLY * own.length)
      return [{ rule, event, why: `${repeated} of ${own.length} files were saved before` }];
    if (!hasNoExposures || !tellsExposure(rules[rule]?.kind.slots ?? [], own.length)) return [];
    const why = `${saves.length} frames are saved and ${exposures} exposures reported`;
    return [{ rule, event, why, instead: ['exposure-begin', 'exposure-end'] }];
  });
};

function tellsExposure(
  slots: readonly { readonly type: string; readonly perLine: readonly unknown[] }[],
  count: number,
): boolean {
  return slots.some(
    ({ type, perLine }) =>
      type === 'filter' && perLine.filter((value) => value !== undefined).length >= NEARLY_ALL * count,
  );
}
