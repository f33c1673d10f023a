import { beginOf, type EventName, type FieldName } from '../../../model/index.js';
import { eventIn, plainWords } from './lexicon.js';
import type { Template, Wildcard } from './template-tree.js';

/** A template, and what is proposed to be made of it. */
export interface Proposal {
  readonly template: Template;
  readonly event: EventName;
  /** Names of the groups that catch something, by index of the first token they stand for. */
  readonly groups: ReadonlyMap<number, string>;
  /** The ends of runs of tokens that one group or placeholder stands for, by index of the first. */
  readonly runs: ReadonlyMap<number, number>;
  /** The formula for how long it lasted, or will last, when only one of the two ends is logged. */
  readonly lasted?: string;
  readonly lasts?: string;
}

const FILE_NAME = /\.(?:fits?|fts|fz|tiff?|raw|png|ser)$/i;
const DESIGNATION = /^(?:NGC|IC|UGC|PGC|LDN|LBN|Sh2|Arp|Abell|Barnard|vdB|M)[ _-]?\d+/i;
const FILTER =
  /^(?:[LRGBCV]|Lum\w*|Red|Green|Blue|Clear|H-?a\w*|H-?b\w*|O-?(?:III|3)|S-?(?:II|2)|N-?(?:II|2)|UV|IR\w*)$/i;
const SECONDS_AFTER = /^(?:s|sec|secs|seconds?|segundos?|sekunden?|secondes?)$/;
const SECONDS_BEFORE =
  /^(?:dur|duration|len|length|seconds?|secs?|exp|exptime|segundos|sekunden|dauer|duree|duracion)$/;
const TOOK_BEFORE =
  /^(?:took|after|in|lasted|elapsed|duration|tardo|duro|tras|dauerte|nach|dauer|dure|duree|apres|en)$/;
const PIXELS = /^(?:px|pix|pixels?|pixeles|distance|dist)$/;
const POSITION_BEFORE = /^(?:pos|position|posicion|at|a|en|bei|step|steps)$/;
const SIZE_BEFORE = /^(?:size|hfr|hfd|fwhm|stars?|estrellas?|sterne?|tamano|grosse|taille)$/;
const FILTER_NEAR = /^(?:filter|filt|filtro|filtre)$/;
const TARGET_BEFORE = /^(?:target|object|obj|objeto|objet|objekt|ziel|on|to|towards|of)$/;
const WHY_BEFORE = /^(?:why|because|cause|reason|unsafe|weather|of|por|causa|motivo|wegen|grund|car|cause|raison)$/;
const SET_BEFORE = /^(?:set|setpoint|target|soll|consigna|consigne)$/;
const COOLING = /\b(?:sensor|cooler|cooling|chip|ccd|enfriador|kuhlung|refroidissement)\b/;

/** What the wording of a template says; `null` when it says nothing. */
export function propose(template: Template): Proposal | null {
  const event = isCooling(template) ? 'cooler' : eventIn(wording(template));
  if (event === null) return null;
  const runs = runsOf(template);
  return { template, event, runs, groups: new Grouping(template, event, runs).groups };
}

/**
 * The proposals with durations where only one end of a thing is logged: a line that says how long the thing took
 * gives its beginning, and an exposure of known length gives its end.
 */
export function withDerivedEnds(proposals: readonly Proposal[]): Proposal[] {
  const logged = new Set(proposals.map((proposal) => proposal.event));
  return proposals.map((proposal) => {
    const names = [...proposal.groups.values()];
    const begin = beginOf(proposal.event);
    if (begin !== undefined && !logged.has(begin) && names.includes('took')) return { ...proposal, lasted: 'took' };
    const isEndless = proposal.event === 'exposure-begin' && !logged.has('exposure-end');
    return isEndless && names.includes('seconds') ? { ...proposal, lasts: 'seconds' } : proposal;
  });
}

/** The template's words; where a file stands, the word `file`. */
function wording(template: Template): string {
  return template.tokens
    .map((token, i) => token ?? (valuesOf(template, i).some((value) => FILE_NAME.test(value)) ? 'file' : '#'))
    .join(' ');
}

function isCooling(template: Template): boolean {
  const numbers = [...template.wildcards.values()].filter((wildcard) => wildcard.numeric).length;
  const words = plainWords(wording(template));
  return numbers >= 2 && COOLING.test(words) && words.split(' ').some((word) => SET_BEFORE.test(word));
}

function valuesOf(template: Template, i: number): readonly string[] {
  return [...(template.wildcards.get(i)?.values ?? [])];
}

/** Placeholders that follow each other with blanks between are one: names of several words. Numbers stand alone. */
function runsOf(template: Template): Map<number, number> {
  const runs = new Map<number, number>();
  for (let i = 0; i < template.tokens.length; i++) {
    if (template.tokens[i] !== null) continue;
    const first = i;
    while (isTextual(template, i) && isTextual(template, i + 1) && template.gaps[i + 1] !== '') i++;
    runs.set(first, i);
  }
  return runs;
}

function isTextual(template: Template, i: number): boolean {
  return template.tokens[i] === null && template.wildcards.get(i)?.numeric === false;
}

/** Names the groups of one template, from the words around its placeholders. */
class Grouping {
  readonly groups = new Map<number, string>();
  private readonly used = new Set<string>();

  constructor(
    private readonly template: Template,
    private readonly event: EventName,
    runs: ReadonlyMap<number, number>,
  ) {
    const places = [...runs.keys()];
    for (const i of places) this.place(i, this.nameByNeighbours(i, runs.get(i) ?? i));
    for (const i of places) if (!this.groups.has(i)) this.place(i, this.nameByKind(i));
  }

  private place(i: number, name: string | null): void {
    if (name === null || this.used.has(name)) return;
    this.groups.set(i, name);
    this.used.add(name);
  }

  private nameByNeighbours(first: number, last: number): string | null {
    const before = this.wordsBefore(first);
    const after = this.wordAfter(last);
    const wildcard = this.template.wildcards.get(first);
    if (wildcard === undefined) return null;
    return wildcard.numeric ? this.numberName(before, after) : this.textName(wildcard, before, after);
  }

  private numberName(before: readonly string[], after: string): string | null {
    const near = (words: RegExp): boolean => before.some((word) => words.test(word));
    const isSeconds = SECONDS_AFTER.test(after) || near(SECONDS_BEFORE);
    if (isSeconds && near(TOOK_BEFORE) && beginOf(this.event) !== undefined) return 'took';
    switch (this.event) {
      case 'exposure-begin':
        return isSeconds ? 'seconds' : null;
      case 'dither-begin':
        return PIXELS.test(after) || near(PIXELS) ? 'pixels' : null;
      case 'focus-end':
        if (this.leadsTo(after)) return 'sizeBefore';
        if (near(SIZE_BEFORE) || /^(?:px|pixels?)$/.test(after)) return 'sizeAfter';
        return near(POSITION_BEFORE) ? 'position' : null;
      case 'cooler':
        return before.slice(0, 1).some((word) => SET_BEFORE.test(word)) ? 'setpoint' : null;
      default:
        return null;
    }
  }

  /** Whether an arrow follows: the number before it is what the number after it was made from. */
  private leadsTo(after: string): boolean {
    return after === '->' || after === '→' || after === '>';
  }

  private textName(wildcard: Wildcard, before: readonly string[], after: string): FieldName | null {
    const values = [...wildcard.values];
    const near = (words: RegExp): boolean => before.some((word) => words.test(word));
    if (values.some((value) => FILE_NAME.test(value)))
      return this.event === 'frame-saved' || this.event.startsWith('exposure') ? 'file' : null;
    const isFilter = values.every((value) => FILTER.test(value)) && values.length > 0;
    if (this.event === 'filter-begin' || this.event === 'filter-end')
      return isFilter || near(/^(?:to|zu|a|al|vers|filter|filtro|filtre)$/) ? 'to' : null;
    if (isFilter || FILTER_NEAR.test(after) || FILTER_NEAR.test(before[0] ?? ''))
      return this.event.startsWith('exposure') ? 'filter' : null;
    if (this.takesTarget() && (values.every((value) => DESIGNATION.test(value)) || near(TARGET_BEFORE)))
      return 'target';
    return this.event === 'hold-begin' && near(WHY_BEFORE) ? 'why' : null;
  }

  private takesTarget(): boolean {
    return /^(?:exposure|slew|centre)-/.test(this.event);
  }

  /** What a placeholder without telling neighbours most likely is. */
  private nameByKind(i: number): FieldName | null {
    const wildcard = this.template.wildcards.get(i);
    if (wildcard === undefined) return null;
    if (wildcard.numeric) {
      const numbers = [...wildcard.values].map((value) => Number(value.replace(',', '.').replace('\u2212', '-')));
      if (
        this.event === 'exposure-begin' &&
        !this.isNumbered(i) &&
        numbers.every((value) => value > 0 && value <= 7200)
      )
        return 'seconds';
      if (this.event === 'dither-begin' && numbers.every((value) => value > 0 && value < 200)) return 'pixels';
      if (this.event === 'focus-end' && numbers.every((value) => Number.isInteger(value) && value > 100))
        return 'position';
      if (this.event === 'focus-end' && numbers.every((value) => value > 0.3 && value < 30)) return 'sizeAfter';
      return this.event === 'cooler' && numbers.every((value) => value >= -100 && value <= 60) ? 'temperature' : null;
    }
    return this.event === 'hold-begin' ? 'why' : null;
  }

  /** Whether the number is a running number: `#7`, `n° 7`, `frame 7`. */
  private isNumbered(i: number): boolean {
    const mark = this.template.tokens[i - 1] ?? '';
    return (
      mark === '#' ||
      mark === '°' ||
      mark === 'º' ||
      /^(?:no|nr|num|number|frame|exposure|exposicion|pose|belichtung)$/.test(plainWords(mark))
    );
  }

  /** The two words before a token, nearest first, marks left out. */
  private wordsBefore(i: number): string[] {
    const words: string[] = [];
    for (let k = i - 1; k >= 0 && words.length < 2 && i - k <= 5; k--) {
      const token = this.template.tokens[k];
      if (token === null || token === undefined) break;
      const plain = plainWords(token);
      if (plain !== '') words.push(...plain.split(' ').reverse());
    }
    return words;
  }

  /** The word or arrow right after a token. */
  private wordAfter(i: number): string {
    const next = this.template.tokens[i + 1] ?? '';
    if (next === '-' && this.template.tokens[i + 2] === '>') return '->';
    return plainWords(next) === '' ? next : plainWords(next);
  }
}
