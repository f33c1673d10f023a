/**
 * What findings say in several places must agree, on named nights and on random ones: one figure for one thing, no
 * minute won twice, nothing said twice.
 */
import { describe, expect, it } from 'vitest';
import { about, isReplayed, signedDuration, sum, type Finding, type Night } from '../../src/model/index.js';
import { findingsView } from '../../src/report/html/view/findings.js';
import { viewContext } from '../../src/report/html/view/context.js';
import { tonightView } from '../../src/report/html/view/tonight.js';
import { anyNight } from '../support/any-night.js';
import { USUAL_NAMES } from '../support/nights.js';
import { replayedNight } from '../support/replayed-night.js';
import { some } from '../support/runs.js';

const NIGHTS: readonly (readonly [string, () => Night | Promise<Night>])[] = [
  ...USUAL_NAMES.map((name) => [name, () => replayedNight(name)] as const),
  ...some(
    [
      1, 3, 8, 2, 4, 5, 6, 9, 20, 22, 26, 21, 23, 24, 27, 28, 30, 32, 34, 38, 39, 41, 42, 43, 44, 45, 47, 48, 50, 52,
      58,
    ],
    2,
  ).map((seed) => [`any night ${seed}`, () => anyNight(seed)] as const),
];

/** Wins of what kept frames are worth rather than of time: they are counted in the exposure that was kept. */
const OF_WORTH = [
  'sub-length',
  'moon-cost',
  'moon-near',
  'marginal-frames',
  'overdue-focus',
  'refocus-too-seldom',
  'larger-stars',
];

const textsOf = ({ title, evidence, advice, price = '' }: Finding): string[] => [title, advice, price, ...evidence];
const sentences = (advice: string): string[] => advice.split(/(?<=[.!?])\s+(?=[\p{Lu}“])/u);

/** Words that two sentences share, of all that they have. */
function likeness(a: string, b: string): number {
  const [one, other] = [a, b].map((text) => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu)));
  if (!one || !other) return 0;
  const common = [...one].filter((word) => other.has(word)).length;
  return common / (one.size + other.size - common);
}

/** `9 min 35 s`, `1.2 h`, in ms. */
function parsed(text: string): number {
  const of = (unit: string): number => Number(new RegExp(`([\\d.]+) ${unit}\\b`).exec(text)?.[1] ?? 0);
  return 3_600_000 * of('h') + 60_000 * of('min') + 1000 * of('s');
}

/** How far a printed duration may be from what it stands for, ms. */
function roundingMs(ms: number): number {
  return ms >= 3_600_000 ? 180_000 : ms >= 600_000 ? 30_000 : 500;
}

interface Amount {
  readonly ms: number;
  readonly times?: number;
}

const amounts = (evidence: readonly string[], pattern: RegExp): Amount[] =>
  evidence.flatMap((line) => [...line.matchAll(pattern)].map(([, text = '']) => ({ ms: parsed(text) })));
const LENGTH = '((?:[\\d.]+ (?:h|min|s) ?){1,2})';

/** The amounts that a finding's evidence lists of its cost. */
const AMOUNTS: Readonly<Record<string, (evidence: readonly string[]) => readonly Amount[]>> = {
  'moon-cost': (evidence) => [
    ...amounts(evidence, new RegExp(`^[^:]+, [^:]+: ${LENGTH}of the .* kept`, 'g')),
    ...amounts(evidence, new RegExp(`^the others together: ${LENGTH}$`, 'g')),
  ],
  'unused-darkness': ([, line = '']) => amounts([line], new RegExp(`${LENGTH}on `, 'g')),
  hold: (evidence) => amounts(evidence, new RegExp(`\\d\\d: ${LENGTH}$`, 'g')),
};

describe.each(NIGHTS)('the findings of %s', (_name, make) => {
  const made = make();

  it('state no share of nothing as a measure', async () => {
    const { ranked } = (await made).findings;
    for (const text of ranked.flatMap(textsOf)) {
      expect(text).not.toMatch(/(?<![\d.])0 % (?:of each|on )/);
      expect(text).not.toMatch(/(?<![\d.] ?)\b0 s of the\b/);
      expect(text).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it('name one figure for what the replay keeps more and what is recoverable', async () => {
    const { ranked } = (await made).findings;
    for (const finding of ranked) {
      // What is shared with another finding says so.
      if (finding.evidence.some((line) => /are counted under|no more than it cost|On the same minutes/.test(line)))
        continue;
      for (const line of finding.evidence) {
        const [, more] = /replayed so, the night keeps (.+?) more on all trains/.exec(line) ?? [];
        if (more !== undefined) expect(more, finding.title).toBe(about(finding.winMs ?? NaN));
      }
    }
  });

  it('win with one rule of the replay no more than the rule does', async () => {
    const { findings, replay } = await made;
    // One that does not know the night well is not rested on.
    if (!isReplayed(replay) || replay.confidence === 'low') return;
    const advised = (rule: string): Finding[] =>
      findings.ranked.filter(({ advice }) => advice.toLowerCase().replace('try this: ', '').startsWith(rule));
    for (const { title, gain } of replay.whatIfs) {
      const own = advised(title.toLowerCase()).filter(({ id }) => /^(?:dither|unequal)/.test(id));
      expect(sum(own.map(({ winMs = 0 }) => winMs)), title).toBeLessThanOrEqual(Math.max(0, gain.meanMs) + 1);
    }
  });

  it('advise a train one length at a time', async () => {
    for (const { advice, title } of (await made).findings.ranked) {
      if (/Choose between/.test(advice)) continue;
      const lengths = new Map<string, Set<string>>();
      const say = (train: string | undefined, length: string | undefined): void => {
        if (train !== undefined && length !== undefined)
          lengths.set(train, (lengths.get(train) ?? new Set()).add(length));
      };
      for (const [, length, train] of advice.matchAll(/(\d+) s on (\w+)/g)) say(train, length);
      for (const [, train, length] of advice.matchAll(/(\w+) exposes (\d+) s(?! in )/g)) say(train, length);
      for (const [train, own] of lengths) expect([...own], `${title}: ${train}, ${advice}`).toHaveLength(1);
    }
  });

  it('add up to the title where they list amounts', async () => {
    const { ranked } = (await made).findings;
    for (const { id, title, costMs, evidence } of ranked) {
      const listed = AMOUNTS[id]?.(evidence);
      if (!listed || evidence.some((line) => /are counted under|On the same minutes|^and \d+ more/.test(line)))
        continue;
      expect(listed.length, title).toBeGreaterThan(0);
      const all = sum(listed.map(({ ms, times = 1 }) => times * ms));
      const most = sum(listed.map(({ ms, times = 1 }) => times * roundingMs(ms)));
      // A hold's lines are hours of the clock, its cost those of each train.
      const trains = id === 'hold' ? Math.max(1, Math.round(costMs / all)) : 1;
      expect(Math.abs(trains * all - costMs), `${title}: ${JSON.stringify(evidence)}`).toBeLessThanOrEqual(
        trains * most + 1000,
      );
    }
  });

  it('charge the Moon once: what is near it is a part of what moonlight cost its train', async () => {
    const { ranked } = (await made).findings;
    for (const near of ranked.filter(({ id }) => id === 'moon-near')) {
      const [, part] = /the Moon cost (.+?) of these frames/.exec(near.evidence.join('\n')) ?? [];
      const [train = ''] = near.title.split(' ');
      const whole = ranked.find(({ id, title }) => id === 'moon-cost' && title.includes(` cost ${train} `));
      expect(near.costMs).toBe(0);
      // Frames that were not kept are near it as well, but lose nothing of what was kept.
      if (part !== undefined && whole && parsed(part) > whole.costMs + roundingMs(parsed(part)))
        expect((await made).accounts.lights.some((f) => f.train === train && f.verdict === 'doubtful')).toBe(true);
    }
  });

  it('state of a replayed rule what the table of rules states of it, and for tonight what they state themselves', async () => {
    const night = await made;
    const { first, rest } = findingsView(viewContext(night));
    const views = [...first, ...rest];
    const { actions } = tonightView(
      viewContext(night),
      night.findings.ranked.map((_, i) => String(i)),
    );
    for (const { anchor, what, win } of actions) {
      const own = views[Number(anchor.replace('finding-', ''))];
      // What several findings advise is won by all of them.
      const alike = views.filter(({ advice }) => advice.startsWith(what));
      if (alike.length === 1 && alike[0] === own) expect(win, what).toBe(own?.win);
    }
    if (!isReplayed(night.replay)) return;
    const gains = new Set(night.replay.whatIfs.map(({ gain }) => signedDuration(gain.meanMs).replace(/^[+−]/, '')));
    for (const text of night.findings.ranked.flatMap(textsOf))
      for (const [, more = ''] of text.matchAll(/the night keeps ([\d.]+ (?:h|min)) more on all trains/g))
        expect([...gains], text).toContain(more);
  });

  it('win back no more than it cost, in figures and as they are printed', async () => {
    const night = await made;
    for (const { costMs, winMs = 0, title } of night.findings.ranked)
      if (costMs > 0) expect(winMs, title).toBeLessThanOrEqual(costMs);
    const { first, rest } = findingsView(viewContext(night));
    for (const { cost, win, title } of [...first, ...rest])
      if (/^[\d.]+ (?:h|min|s)\b/.test(cost) && win !== '' && !win.startsWith('under'))
        expect(parsed(win), `${title}: ${win} of ${cost}`).toBeLessThanOrEqual(parsed(cost));
  });

  it('win no more time than the night had, and no more worth than it kept', async () => {
    const { findings, accounts } = await made;
    const wins = (wanted: (id: string) => boolean): number =>
      sum(findings.ranked.filter(({ id }) => wanted(id)).map(({ winMs = 0 }) => winMs));
    const keptMs = sum(accounts.totals.map(({ ms }) => ms.kept));
    const unkeptMs = sum(accounts.ledgers.map(({ totalsMs }) => sum(Object.values(totalsMs)) - (totalsMs.kept ?? 0)));
    // Frames outside the window are in no ledger.
    const takenMs = sum(accounts.totals.map(({ ms }) => ms.taken));
    expect(wins((id) => !OF_WORTH.includes(id))).toBeLessThanOrEqual(unkeptMs + takenMs - keptMs);
    expect(wins((id) => OF_WORTH.includes(id))).toBeLessThanOrEqual(keptMs);
  });

  it('advise one number of frames between two dithers', async () => {
    const { findings, replay } = await made;
    // `dither every 7 frames of wren`, which leads then, is no count of the one that leads now.
    const counts = findings.ranked.flatMap(({ advice }) =>
      [...advice.matchAll(/\bdither every (\d+ frames|frame)\b(?! of )/gi)].map(([, count]) => count),
    );
    const best = isReplayed(replay)
      ? /dither every (\d+ frames|frame)\b(?! of )/i.exec(replay.best?.title ?? '')?.[1]
      : undefined;
    expect(new Set([...counts, ...(best === undefined || counts.length === 0 ? [] : [best])]).size).toBeLessThan(2);
  });

  it('advise one length of subs for a train, or say that it is a choice', async () => {
    const { ranked } = (await made).findings;
    const lengths = ranked.flatMap(({ newDarks = [], advice }) =>
      newDarks.map((darks) => ({ train: darks.replace(/^.* on /, ''), darks, advice })),
    );
    lengths.forEach(({ train, darks, advice }, i) => {
      if (lengths.slice(0, i).some((one) => one.train === train && one.darks !== darks && one.advice !== advice))
        expect(advice).toContain('Choose between this and ');
    });
  });

  it('say no sentence twice in an advice, and advise lengths that somebody would set', async () => {
    for (const { advice, id } of (await made).findings.ranked) {
      const said = sentences(advice);
      expect(new Set(said).size, advice).toBe(said.length);
      if (id !== 'sub-length') continue;
      for (const [, seconds] of advice.matchAll(/(\d+) s in /g))
        expect(Number(seconds) % (Number(seconds) < 120 ? 5 : 10), advice).toBe(0);
    }
  });

  it('advise alike for tonight only in the same words, which are then said once', async () => {
    const night = await made;
    const trains = night.gathered.trains.map(({ id }) => id);
    const nameless = (what: string): string => what.replace(new RegExp(`\\b(?:${trains.join('|')})\\b`, 'g'), '');
    const { actions } = tonightView(
      viewContext(night),
      night.findings.ranked.map(({ id }) => id),
    );
    actions.forEach(({ what }, i) => {
      for (const other of actions.slice(i + 1))
        expect(likeness(nameless(what), nameless(other.what)), `${what} / ${other.what}`).toBeLessThan(0.7);
    });
  });
});
