import { describe, expect, it } from 'vitest';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { TemplateTree, templateText } from '../../../src/gather/dialects/draft/template-tree.js';
import { tokenize } from '../../../src/gather/dialects/draft/tokens.js';
import { inFull } from '../../support/runs.js';

function mined(messages: readonly string[]): string[] {
  const tree = new TemplateTree(false);
  messages.forEach((message, i) => tree.add(message, i + 1));
  return tree.templates().map((template) => `${template.count} × ${templateText(template)}`);
}

describe('the templates of a log', () => {
  it('keep what lines agree on and leave out what differs', () => {
    expect(
      mined([
        'rail 1 carries 2.5 A',
        'rail 2 carries 2.25 A',
        'ping of north answered',
        'ping of south answered',
        'rail 3 carries 1 A',
      ]),
    ).toEqual(['3 × rail … carries … A', '2 × ping of … answered']);
  });

  it('never merge words that tell things apart', () => {
    expect(
      mined(['mount: slew complete', 'mount: dither complete', 'mount: slew complete', 'mount: slew started']),
    ).toEqual(['2 × mount: slew complete', '1 × mount: dither complete', '1 × mount: slew started']);
  });

  it('take files, designations and numbers as values from the first line on', () => {
    expect(mined(['saved frames/heron/a_1.fits of NGC 281 at 3,5'])).toEqual(['1 × saved … of … at …,…']);
  });

  it('stay within bounds on a log of nothing but different lines', () => {
    const tree = new TemplateTree(false);
    const letters = 'abcdefghijklmnopqrstuvwxyz';
    const lines = inFull(20_000, 2500);
    for (let i = 0; i < lines; i++)
      tree.add(
        Array.from(
          { length: 1 + (i % 7) },
          (_, k) =>
            `${letters[(i * 7 + k) % 26] ?? ''}${letters[(i >> 3) % 26] ?? ''}${letters[(i >> 7) % 26] ?? ''}q${'x'.repeat(k)}`,
        ).join(' '),
        i + 1,
      );
    const kept = tree.templates();
    expect(kept.length).toBeLessThanOrEqual(1000);
    expect(kept.reduce((sum, template) => sum + template.count, tree.dropped)).toBe(lines);
    expect(
      Math.max(...kept.flatMap((template) => [...template.wildcards.values()].map((wildcard) => wildcard.values.size))),
    ).toBeLessThanOrEqual(24);
  });
});

describe('tokens', () => {
  it.each([
    ['dur=300s filt=Ha', ['dur', '=', '300', 's', 'filt', '=', 'Ha']],
    ['"NGC 281", M 33', ['"', 'NGC 281', '"', ',', 'M 33']],
    ['size 2.5->1.9 (ok).', ['size', '2.5', '-', '>', '1.9', '(', 'ok', ')', '.']],
    ['wrote frames/heron/a.fits.', ['wrote', 'frames/heron/a.fits', '.']],
    ['wrote asio\\Ha 0001.fits, 52 MB', ['wrote', 'asio\\Ha 0001.fits', ',', '52', 'MB']],
    ['/n/NGC 281/Ha - 300s 0001.fits.gz on disk', ['/n/NGC 281/Ha - 300s 0001.fits.gz', 'on', 'disk']],
    ['saved "Ha 0001.fits" as is', ['saved', '"', 'Ha 0001.fits', '"', 'as', 'is']],
    // Words of the line, which begin small, are no part of a path.
    ['from /data/heron to Ha_1.fits', ['from', '/data/heron', 'to', 'Ha_1.fits']],
    ['-10.5 °C', ['-10.5', '°', 'C']],
  ])('of %j', (text, expected) => {
    expect(tokenize(text, false).map((token) => token.text)).toEqual(expected);
  });

  it('read decimal commas where the log has them', () => {
    expect(tokenize('3,5;4', true).map((token) => token.text)).toEqual(['3,5', ';', '4']);
  });
});

describe('the wording of a line', () => {
  it.each([
    ['shutter open', 'exposure-begin'],
    ['exposure finished', 'exposure-end'],
    ['exposición cancelada', 'exposure-abort'],
    ['Belichtung gestartet', 'exposure-begin'],
    ['fin de la pose', 'exposure-end'],
    ['image saved', 'frame-saved'],
    ['ready to dither', 'dither-ready'],
    ['DITHER_START', 'dither-begin'],
    ['dithering done', 'dither-end'],
    ['settling', 'settling-begin'],
    ['estabilizado', 'settling-end'],
    ['Beruhigung beendet', 'settling-end'],
    ['AutofocusStarted', 'focus-begin'],
    ['mise au point terminée', 'focus-end'],
    ['filter change complete', 'filter-end'],
    ['Filterwechsel begonnen', 'filter-begin'],
    ['slewing to target', 'slew-begin'],
    ['Schwenk beendet', 'slew-end'],
    ['target centred', 'centre-end'],
    ['meridian flip started', 'flip-begin'],
    ['guiding paused for refocus', 'guiding-rest-begin'],
    ['Guiado reanudado', 'guiding-rest-end'],
    ['guide star lost', 'star-gap-begin'],
    ['étoile guide retrouvée', 'star-gap-end'],
    ['unsafe', 'hold-begin'],
    ['safe again', 'hold-end'],
    ['roof closed because of rain', 'hold-begin'],
    ['Dach geöffnet', 'hold-end'],
    ['mount parked', null],
    ['cloud cover 12 %', null],
    ['filter wheel has 7 positions', null],
    ['guide rms 0.4', null],
    ['download took 2 s', 'exposure-end'],
    ['focuser at 8 C', null],
    ['', null],
  ])('%j says %s', (text, event) => {
    const [first, second] = [...wordEvidence(text)].sort((a, b) => b[1] - a[1]);
    const sure = first !== undefined && first[1] >= 2.3 && first[1] - (second?.[1] ?? 0) >= 0.25;
    expect(sure ? first[0] : null).toBe(event);
  });
});
