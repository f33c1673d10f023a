import { basename } from 'node:path/posix';
import type { EventName } from '../../../model/index.js';
import { newStamp, StampPattern } from '../time/stamp.js';
import { deriveEnds, propose, type Proposal } from './propose.js';
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

function survey(sample: LogSample): DraftReport {
  const filled = sample.lines.filter((line) => line.trim() !== '');
  const stamp = guessStamp(filled.slice(0, STAMP_LINES));
  const pattern = stamp === null ? null : new StampPattern(stamp.pattern);
  const stamped = filled.map((line) => afterStamp(pattern, stamp, line));
  const firstStamped = stamped.findIndex((message) => message !== null);
  const unstamped = stamped.slice(Math.max(0, firstStamped)).filter((message) => message === null).length;
  const entries = pattern !== null && unstamped > stamped.length * 0.15;
  const head = filled.slice(0, HEAD_LINES).filter((_, i) => stamped[i] === null);

  const messages = entryMessages(sample.lines, pattern, stamp, entries);
  const decimalComma = usesDecimalComma(messages.slice(0, STAMP_LINES).map(({ text }) => text));
  const tree = new TemplateTree(decimalComma);
  for (const { text, line } of messages) tree.add(text, line);

  const templates = tree.templates();
  const proposals = templates.flatMap((template) => propose(template) ?? []);
  deriveEnds(proposals);
  const used = new Set(proposals.map((proposal) => proposal.template));
  const section = pattern?.kind === 'elapsed' ? sectionIn(head) : null;
  return {
    file: sample.file, encoding: sample.encoding, lineEnding: sample.lineEnding, totalLines: sample.totalLines, linesSeen: filled.length,
    stamp, zone: head.some((line) => /\b(?:UTC|GMT)\b/.test(line)) ? 'utc' : 'site',
    date: dateSource(pattern, sample.file, sample.lines, head), ...(section === null ? {} : { section }), entries, decimalComma,
    rules: inOrder(proposals).map((proposal) => ruleOf(proposal, decimalComma)),
    unused: templates.filter((template) => !used.has(template)).map((template) => ({
      template: templateText(template), pattern: rulePattern(template, new Map(), new Map(), decimalComma), count: template.count, firstLine: template.firstLine,
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
  return pattern.readAt(bytes, 0, bytes.length, stampScratch) ? bytes.subarray(stampScratch.end).toString('utf8').trim() : null;
}

/** The messages as the dialect's patterns will see them, with the numbers of their lines. */
function entryMessages(lines: readonly string[], pattern: StampPattern | null, guess: StampGuess | null, entries: boolean): { text: string; line: number }[] {
  const messages: { text: string; line: number }[] = [];
  lines.forEach((line, i) => {
    if (line.trim() === '') return;
    const message = afterStamp(pattern, guess, line);
    const last = messages[messages.length - 1];
    if (entries && message === null && last !== undefined) last.text += `\n${line.trim()}`;
    else messages.push({ text: message ?? line.trim(), line: i + 1 });
  });
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

function dateSource(pattern: StampPattern | null, file: string, lines: readonly string[], head: readonly string[]): DateSource {
  if (pattern === null || (pattern.kind !== 'time' && pattern.kind !== 'month-day-time')) return { from: 'line' };
  for (const line of head) {
    const date = findDate(line);
    if (date === null) continue;
    return { from: 'header', when: `${lead(line, date.start)}(?<date>.+)`, pattern: date.pattern, line: lines.indexOf(line) + 1 };
  }
  const named = findDate(basename(file));
  return named === null ? { from: 'session' } : { from: 'file', pattern: named.pattern };
}

function sectionIn(head: readonly string[]): { begin: string; base: string } | null {
  for (const line of head) {
    const stamp = findStamp(line);
    if (stamp === null || !/\{day\}|\{b\}|\{epoch/.test(stamp.pattern)) continue;
    const base = stamp.pattern.replace('{a}', '{day}').replace('{b}', '{month}');
    return { begin: `${lead(line, stamp.start)}(?<time>.+)`, base };
  }
  return null;
}

/** The last words before a place in a line, as a pattern that tells the line. */
function lead(line: string, end: number): string {
  const words = line.slice(0, end).trimStart().split(/(?<=\s)/).slice(-4).join('');
  return (words === '' ? '^' : words).replace(/[\\$.*+?()[\]{}|]/g, '\\$&');
}

/** Rules of one event together, events in the order in which they first happen. */
function inOrder(proposals: readonly Proposal[]): Proposal[] {
  const firstOf = new Map<EventName, number>();
  for (const { event, template } of proposals) firstOf.set(event, Math.min(firstOf.get(event) ?? Infinity, template.firstLine));
  return [...proposals].sort((a, b) => (firstOf.get(a.event) ?? 0) - (firstOf.get(b.event) ?? 0) || b.template.count - a.template.count);
}

function ruleOf(proposal: Proposal, decimalComma: boolean): DraftRule {
  const { template, event, runs, groups, lasted, lasts } = proposal;
  return {
    event,
    when: rulePattern(template, runs, groups, decimalComma),
    ...(lasted === undefined ? {} : { lasted }),
    ...(lasts === undefined ? {} : { lasts }),
    count: template.count, firstLine: template.firstLine, example: template.example,
  };
}
