/** Nights that never became dark enough for any frame: time saved on them is not kept either. */
import { isNeverDark, type NightFacts } from '../model/index.js';
import type { FindingDraft } from './finding.js';

type Draft = FindingDraft & { readonly id: string };

/** Withdraws the promised gains if it never became dark. */
export function withoutPromises(drafts: readonly Draft[], night: NightFacts): readonly Draft[] {
  return isNeverDark(night) ? drafts.map(promisingNothing) : drafts;
}

function promisingNothing(draft: Draft): Draft {
  const { winMs = 0, rule: _, ...rest } = draft;
  return winMs === 0
    ? draft
    : { ...rest, evidence: [...draft.evidence, 'it never got dark enough for any frame: no gain is claimed'] };
}
