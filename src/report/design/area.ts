import type { Account, Verdict } from '../../model/index.js';
import { cssColour, tokens, type PatternName } from './tokens.js';

/**
 * How an area is drawn: solid; solid in its lower half; dashed; or hollow, crossed out or not. Areas are
 * distinguishable without their colour, however narrow. Dashes are lines, not fill patterns: they stay sharp and small
 * on paper.
 */
export interface AreaStyle {
  /** CSS value of the colour. */
  readonly colour: string;
  readonly solid: boolean;
  readonly half: boolean;
  /** `stroke-dasharray` of a line as thick as the area's height; empty for none. */
  readonly dash: string;
  readonly crossed: boolean;
}

function areaStyle(colour: string, pattern: PatternName): AreaStyle {
  return {
    colour: cssColour(colour),
    solid: pattern === 'solid',
    half: pattern === 'half',
    dash: tokens().patterns[pattern],
    crossed: pattern === 'crossed',
  };
}

/** An area of one colour, whole. */
export function solidArea(colour: string): AreaStyle {
  return areaStyle(colour, 'solid');
}

/** An exposure by its verdict: solid when kept, half when doubtful, crossed out when lost. */
export function verdictArea(colour: string, verdict: Verdict): AreaStyle {
  return areaStyle(colour, tokens().accounts[verdict]);
}

/** A ledger account. */
export function accountArea(account: Account): AreaStyle {
  return areaStyle(`account-${account}`, tokens().accounts[account]);
}
