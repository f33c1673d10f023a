import type { EventFields, EventName } from '../../../../src/model/index.js';
import { seeded, type Random } from '../../../support/generator/random.js';

/** One thing that happens in an invented night; `chatter` is what happens in every log and matters to no account. */
export interface Happening {
  readonly atMs: number;
  readonly event: EventName | 'chatter';
  readonly facts: EventFields & { readonly n?: number; readonly arcsec?: number; readonly x?: number };
  /** For ends: when the thing began. */
  readonly beganMs?: number;
}

type Facts = Happening['facts'];

const TARGETS = ['NGC 281', 'IC 1396', 'M 33', 'NGC 7380', 'IC 63', 'M 31'] as const;
const FILTERS = ['L', 'R', 'G', 'B', 'Ha', 'OIII', 'SII'] as const;
const EVENING_MS = Date.UTC(2026, 8, 20, 18, 20);

/** A night of one train: targets, filters, dithers, refocusing, a lost star, a flip, a hold, and chatter. */
export function inventedNight(seed: number): Happening[] {
  return new Night(seeded(seed)).happenings;
}

class Night {
  readonly happenings: Happening[] = [];
  private nowMs: number;
  private number = 0;
  private position: number;
  private readonly wanted: number;
  private readonly every: number;
  private readonly waits: boolean;

  constructor(private readonly random: Random) {
    this.nowMs = EVENING_MS + random.whole(0, 60) * 86_400_000 + random.whole(0, 5_400_000);
    this.position = random.whole(4000, 22_000);
    this.wanted = random.whole(-20, -5);
    this.every = random.whole(1, 4);
    this.waits = random.next() < 0.5;
    for (let temp = 9.5; temp > this.wanted + 1; temp -= random.whole(30, 70) / 10) {
      this.add('cooler', { temperature: one(temp), setpoint: this.wanted });
      this.wait(60, 100);
    }
    const stretches = random.whole(2, 4);
    const troubled = random.whole(0, stretches - 1);
    for (let i = 0; i < stretches; i++) this.stretch(i === troubled);
    this.happenings.sort((a, b) => a.atMs - b.atMs);
  }

  private wait(low: number, high: number): void {
    this.nowMs += Math.round(1000 * (low + this.random.next() * (high - low)));
  }

  private add(event: EventName, facts: Facts = {}, beganMs?: number): void {
    this.happenings.push({ atMs: this.nowMs, event, facts, ...(beganMs === undefined ? {} : { beganMs }) });
  }

  private span(
    begin: EventName,
    end: EventName,
    low: number,
    high: number,
    facts: Facts = {},
    after: Facts = facts,
  ): void {
    this.add(begin, facts);
    const began = this.nowMs;
    this.wait(low, high);
    this.add(end, after, began);
    this.wait(0.3, 3);
  }

  private stretch(troubled: boolean): void {
    const { random } = this;
    const target = pick(TARGETS, random);
    const filters = [...FILTERS].sort(() => random.next() - 0.5).slice(0, random.whole(1, 2));
    this.point(target);
    filters.forEach((filter, i) => {
      this.change(filter);
      this.focus(i > 0);
      if (i === 0) this.guide();
      const seconds = pick([60, 120, 180, 240, 300, 420, 600], random);
      const frames = random.whole(8, 16);
      for (let k = 1; k <= frames; k++) {
        this.expose(target, filter, seconds, troubled && k === 4);
        if (k < frames && k % this.every === 0) this.dither();
        if (troubled && i === 0 && k === 6) this.hold(target);
        if (troubled && i === 0 && k === 7) this.flip(target);
      }
    });
    this.add('guiding-end');
    this.wait(1, 4);
  }

  private point(target: string): void {
    this.span('slew-begin', 'slew-end', 15, 60, { target });
    this.span('centre-begin', 'centre-end', 10, 40, { target }, { target, arcsec: one(this.random.next() * 30) });
  }

  private change(filter: string): void {
    this.span('filter-begin', 'filter-end', 2, 6, { to: filter });
  }

  private focus(guided: boolean): void {
    const { random } = this;
    if (guided) {
      this.add('guiding-rest-begin');
      this.wait(0.5, 2);
    }
    this.position += random.whole(-180, 180);
    this.span(
      'focus-begin',
      'focus-end',
      50,
      170,
      { temperature: one(6 + random.next() * 9) },
      {
        position: this.position,
        sizeBefore: two(2.4 + random.next() * 2),
        sizeAfter: two(1.6 + random.next()),
      },
    );
    if (guided) {
      this.add('guiding-rest-end');
      this.settle();
    }
  }

  private guide(): void {
    this.add('guiding-begin');
    this.wait(1, 4);
    this.settle();
  }

  private settle(): void {
    this.span('settling-begin', 'settling-end', 5, 24, {}, { ok: true });
  }

  private dither(): void {
    if (this.waits) {
      this.add('dither-ready');
      this.wait(0.4, 3);
    }
    this.span('dither-begin', 'dither-end', 0.8, 3, { pixels: one(1 + this.random.next() * 6) });
    this.settle();
  }

  private expose(target: string, filter: string, seconds: number, fails: boolean): void {
    const { random } = this;
    const n = ++this.number;
    const facts = { target, filter, seconds, n };
    this.add('exposure-begin', facts);
    const began = this.nowMs;
    const lasts = fails ? seconds * 0.4 : seconds + random.next() * 0.8;
    if (random.next() < 0.12) this.lose(began, lasts);
    for (let at = random.next() * 400; at < lasts; at += 100 + random.next() * 900)
      this.happenings.push({
        atMs: began + Math.round(at * 1000),
        event: 'chatter',
        facts: { x: one(random.next() * 80) },
      });
    if (random.next() < 0.15)
      this.happenings.push({
        atMs: began + Math.round(random.next() * lasts * 1000),
        event: 'cooler',
        facts: { temperature: one(this.wanted + random.normal(0, 0.1)), setpoint: this.wanted },
      });
    this.nowMs = began + Math.round(lasts * 1000);
    this.add(fails ? 'exposure-abort' : 'exposure-end', facts, began);
    this.wait(1, 4);
    if (fails) return;
    const file = `${target.replace(' ', '')}_${filter}_${String(n).padStart(4, '0')}.fits`;
    this.add('frame-saved', { file, n });
    this.wait(0.2, 2);
  }

  private lose(beganMs: number, lasts: number): void {
    const from = beganMs + Math.round(1000 * lasts * (0.1 + 0.3 * this.random.next()));
    const to = from + Math.round(1000 * Math.min(lasts * 0.4, 8 + 30 * this.random.next()));
    this.happenings.push({ atMs: from, event: 'star-gap-begin', facts: {} });
    this.happenings.push({ atMs: to, event: 'star-gap-end', facts: {}, beganMs: from });
  }

  private hold(target: string): void {
    this.add('guiding-end');
    this.wait(1, 3);
    this.span('hold-begin', 'hold-end', 500, 2500);
    this.point(target);
    this.guide();
  }

  private flip(target: string): void {
    this.add('guiding-end');
    this.wait(1, 3);
    this.span('flip-begin', 'flip-end', 50, 150);
    this.span('centre-begin', 'centre-end', 10, 40, { target }, { target, arcsec: one(this.random.next() * 30) });
    this.guide();
  }
}

/** One of several. */
export function pick<T>(items: readonly T[], random: Pick<Random, 'next'>): T {
  const item = items[Math.floor(random.next() * items.length)];
  if (item === undefined) throw new RangeError('nothing to pick from');
  return item;
}

function one(value: number): number {
  return Math.round(value * 10) / 10;
}

function two(value: number): number {
  return Math.round(value * 100) / 100;
}
