import { basename } from 'node:path/posix';
import type { EventName } from '../../../model/index.js';
import { newStamp, StampPattern } from '../time/stamp.js';
import { propose, withDerivedEnds, type Proposal } from './propose.js';
import { rulePattern } from './rule-pattern.js';
import type { DateSource, Draft, DraftReport, DraftRule } from './report.js';
import type { LogSample } from './sample.js';
import { findDate, findStamp, guessStamp, type StampGuess } from './stamp-guess.js';
import { TemplateTree, templateText } from './template-tree.js';
import { writeDraft } from './write-draft.js';

/** Lines whose stamps are compared to find the time pattern. */
const STAMP_LINES = 5000;
/** Lines at the beginning that may state the date, the zone or the base of relative times. */
const HEAD_LINES = 50;

/**
 * Drafts a dialect for a log nobody has described yet: finds out how it is encoded and stamped, mines the
 * templates of its lines, and proposes events from their wording.
 */
export function draftDialect(sample: LogSample): Draft {
  const report = survey(sample);
  return { yaml: writeDraft(report), report };
}

/** A line that is not blank: its number, its text, and its message, `null` where it has no stamp. */
interface SampleLine {
  readonly number: number;
  readonly text: string;
  readonly message: string | null;
}

function survey(sample: LogSample): DraftReport {
  const filled = sample.lines.flatMap((line, i) => (line.trim() === '' ? [] : [{ line, number: i + 1 }]));
  const stamp = guessStamp(filled.slice(0, STAMP_LINES).map(({ line }) => line));
  const pattern = stamp === null ? null : new StampPattern(stamp.pattern);
  const lines = filled.map(
    ({ line, number }): SampleLine => ({ number, text: line.trim(), message: afterStamp(pattern, stamp, line) }),
  );
  const firstStamped = Math.max(
    0,
    lines.findIndex(({ message }) => message !== null),
  );
  const unstamped = lines.slice(firstStamped).filter(({ message }) => message === null).length;
  const entries = pattern !== null && unstamped > lines.length * 0.15;
  const head = lines.slice(0, HEAD_LINES).filter(({ message }) => message === null);

  const messages = entryMessages(lines, entries);
  const decimalComma = usesDecimalComma(messages.slice(0, STAMP_LINES).map(({ text }) => text));
  const tree = new TemplateTree(decimalComma);
  for (const { text, number } of messages) tree.add(text, number);
  const templates = tree.templates();
  const proposals = withDerivedEnds(templates.flatMap((template) => propose(template) ?? []));
  const used = new Set(proposals.map(({ template }) => template));
  const section = pattern?.kind === 'elapsed' ? sectionIn(head) : null;
  return {
    file: sample.file,
    encoding: sample.encoding,
    lineEnding: sample.lineEnding,
    totalLines: sample.totalLines,
    linesSeen: lines.length,
    stamp,
    zone: head.some(({ text }) => /\b(?:UTC|GMT)\b/.test(text)) ? 'utc' : 'site',
    date: dateSource(pattern, sample.file, head),
    ...(section === null ? {} : { section }),
    entries,
    decimalComma,
    rules: inOrder(proposals).map((proposal) => ruleOf(proposal, decimalComma)),
    unused: templates
      .filter((template) => !used.has(template))
      .map((template) => ({
        template: templateText(template),
        pattern: rulePattern(template, new Map(), new Map(), decimalComma),
        count: template.count,
        firstLine: template.firstLine,
      })),
    warnings: sample.warnings,
  };
}

const stampScratch = newStamp();

/** The message after the stamp (the whole line where the stamp stands anywhere), or `null` without a stamp. */
function afterStamp(pattern: StampPattern | null, guess: StampGuess | null, line: string): string | null {
  if (pattern === null || guess === null) return line.trim();
  const bytes = Buffer.from(line);
  if (guess.anywhere) return pattern.find(bytes, 0, bytes.length, stampScratch) ? line.trim() : null;
  return pattern.readAt(bytes, 0, bytes.length, stampScratch)
    ? bytes.subarray(stampScratch.end).toString('utf8').trim()
    : null;
}

/** The messages as the dialect's patterns will see them, with the numbers of their first lines. */
function entryMessages(lines: readonly SampleLine[], entries: boolean): { text: string; number: number }[] {
  const messages: { text: string; number: number }[] = [];
  for (const { number, text, message } of lines) {
    const last = messages[messages.length - 1];
    if (entries && message === null && last !== undefined) last.text += `\n${text}`;
    else messages.push({ text: message ?? text, number });
  }
  return messages;
}

function usesDecimalComma(messages: readonly string[]): boolean {
  let commas = 0;
  let points = 0;
  for (const message of messages) {
    if (/(?<![\d.,])\d+,\d+(?![\d.,])/.test(message)) commas++;
    if (/(?<![\p{L}\d.,/])\d+\.\d+(?![\p{L}\d.,])/u.test(message)) points++;
  }
  return commas > 2 * points;
}

function dateSource(pattern: StampPattern | null, file: string, head: readonly SampleLine[]): DateSource {
  if (pattern === null || (pattern.kind !== 'time' && pattern.kind !== 'month-day-time')) return { from: 'line' };
  for (const { text, number } of head) {
    const date = findDate(text);
    if (date !== null)
      return { from: 'header', when: `${lead(text, date.start)}(?<date>.+)`, pattern: date.pattern, line: number };
  }
  const named = findDate(basename(file));
  return named === null ? { from: 'session' } : { from: 'file', pattern: named.pattern };
}

/** The line that states what relative times count from. */
function sectionIn(head: readonly SampleLine[]): { begin: string; base: string } | null {
  for (const { text } of head) {
    const stamp = findStamp(text);
    if (stamp === null || !/\{day\}|\{b\}|\{epoch/.test(stamp.pattern)) continue;
    const base = stamp.pattern.replace('{a}', '{day}').replace('{b}', '{month}');
    return { begin: `${lead(text, stamp.start)}(?<time>.+)`, base };
  }
  return null;
}

/** The last words before a place in a line, as a pattern that tells the line. */
function lead(line: string, end: number): string {
  const words = line
    .slice(0, end)
    .trimStart()
    .split(/(?<=\s)/)
    .slice(-4)
    .join('');
  return (words === '' ? '^' : words).replace(/[\\$.*+?()[\]{}|]/g, '\\$&');
}

/** Rules of one event together, events in the order in which they first happen. */
function inOrder(proposals: readonly Proposal[]): Proposal[] {
  const firstOf = new Map<EventName, number>();
  for (const { event, template } of proposals)
    firstOf.set(event, Math.min(firstOf.get(event) ?? Infinity, template.firstLine));
  return [...proposals].sort(
    (a, b) => (firstOf.get(a.event) ?? 0) - (firstOf.get(b.event) ?? 0) || b.template.count - a.template.count,
  );
}

function ruleOf(proposal: Proposal, decimalComma: boolean): DraftRule {
  const { template, event, runs, groups, lasted, lasts } = proposal;
  return {
    event,
    when: rulePattern(template, runs, groups, decimalComma),
    ...(lasted === undefined ? {} : { lasted }),
    ...(lasts === undefined ? {} : { lasts }),
    count: template.count,
    firstLine: template.firstLine,
    example: template.example,
  };
}
