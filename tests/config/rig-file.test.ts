import { DEFAULT_RULES } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { ConfigError, parseRig } from '../../src/config/index.js';

const GOOD = `
site: { name: "Cierzo Hill", latitude: 40.42, longitude: -1.12, elevation: 1100, timezone: Europe/Madrid }
trains:
  - id: heron
    role: pilot
    telescope: { focalLength: 480, aperture: 80 }
    camera: { pixelSize: 3.76 }
    frames: [ "frames/heron/**/*.fits" ]
    logs: [ { files: "logs/heron*.jsonl" }, "logs/other.jsonl" ]
  - id: wren
    frames: "frames/wren/**"
    match: { TELESCOP: wren }
guiding: { source: off-axis, logs: [] }
targets: [ { name: NGC 281, ra: "00:52:59", dec: "+56:37:19", goals: { Ha: 12h, OIII: 90m } } ]
rules: { roughGuiding: 0.8 }
`;

function problemsOf(text: string): readonly string[] {
  try {
    parseRig('rig.yaml', text);
  } catch (error) {
    if (error instanceof ConfigError) return error.problems;
    throw error;
  }
  return [];
}

describe('a rig file', () => {
  it('may have keys with nothing behind them, as commenting out leaves them', () => {
    const empty = 'rules:\ntargets:\nguiding:\nfilters:\nkeywords:\ndarkness:\ndarkSky:\nreferenceSub:\n';
    const { rig, warnings } = parseRig(
      'rig.yaml',
      `${empty}site: { latitude: 40, longitude: -1, horizon: }\ntrains:\n  - id: heron\n    logs:\n    camera:\n` +
        '    filters: { Ha: , OIII: { width: } }\n',
    );
    expect(warnings).toEqual([]);
    expect(rig).toMatchObject({ darkness: 'nautical', targets: [], rules: DEFAULT_RULES });
    expect(rig.trains[0]?.filterNames).toEqual(['Ha', 'OIII']);
    // What is needed is still missed.
    expect(problemsOf('site:\ntrains:\n')).toEqual([
      expect.stringContaining('trains must be a list with one entry per train'),
    ]);
  });

  it('says what to write if a mapping is something else', () => {
    const trains = 'trains: [{ id: heron }]\n';
    expect(problemsOf(`${trains}site: [40, -1]\nfilters: Ha\nrules: 3\nguiding: yes\nkeywords: 7\n`)).toEqual([
      expect.stringMatching(/:2: site must be a mapping such as \{ latitude: 40\.42, longitude: -1\.12 \}$/),
      expect.stringMatching(/:3: filters must be a mapping such as \{ Ha: \[H_Alpha\] \}/),
      expect.stringMatching(/:4: rules must be a mapping such as \{ motionGrace: 1 \}$/),
      expect.stringMatching(/:5: guiding must be a mapping such as \{ source: off-axis, train: heron \}$/),
      expect.stringMatching(/:6: keywords must be a mapping such as \{ starFwhm: \[MYSTARS\] \}$/),
    ]);
  });

  it('is read with its defaults', () => {
    const { rig, warnings } = parseRig('rig.yaml', GOOD);
    expect(warnings).toEqual([]);
    expect(rig.darkness).toBe('nautical');
    expect(rig.site?.minimumAltitudeDeg).toBe(25);
    expect(rig.trains.map((t) => [t.id, t.role])).toEqual([
      ['heron', 'pilot'],
      ['wren', 'companion'],
    ]);
    expect(rig.trains[0]?.logs.map((l) => l.files)).toEqual([['logs/heron*.jsonl'], ['logs/other.jsonl']]);
    expect(rig.guiding?.train).toBe('heron');
    expect(rig.targets[0]?.goals.hours).toEqual({ Ha: 12, OIII: 1.5 });
    expect(rig.targets[0]?.decDeg).toBeCloseTo(56.62194, 4);
    expect(rig.targets[0]?.raDeg).toBeCloseTo(13.24583, 4);
    expect(rig.rules).toEqual({ ...DEFAULT_RULES, roughGuidingPixels: 0.8 });
    expect(rig.rules).toMatchObject({ motionGraceSeconds: 1, guidingOffGraceSeconds: 10, guidingOffShare: 0.05 });
  });

  it('names line, path and fix of a wrong value', () => {
    expect(problemsOf(GOOD.replace('role: pilot', 'role: main'))).toEqual([
      'rig.yaml:5: trains#1.role must be pilot (its computer steers the mount) or companion',
    ]);
    expect(problemsOf(GOOD.replace('latitude: 40.42', 'latitude: 140.42'))[0]).toBe(
      'rig.yaml:2: site.latitude must be at most 90: degrees, north positive',
    );
    expect(problemsOf(GOOD.replace('Europe/Madrid', 'Europe/Nowhere'))[0]).toContain(
      'site.timezone is not an IANA time zone: "Europe/Nowhere"',
    );
    expect(problemsOf(GOOD.replace('90m', 'soon'))[0]).toContain('targets#1.goals.OIII must be hours');
  });

  it('tells all its problems at once', () => {
    const text = GOOD.replace('role: pilot', 'role: main').replace('"00:52:59"', '"north"');
    expect(problemsOf(text)).toHaveLength(2);
  });

  it('refuses indistinguishable trains', () => {
    expect(problemsOf('trains: [ { id: a, frames: "a/**" }, { id: b } ]')[0]).toContain('("b") needs frames');
    expect(problemsOf('trains: [ { id: a, frames: "a/**" }, { id: a, frames: "b/**" } ]')[0]).toContain('used twice');
  });

  it('refuses two pilots and a guider on no train', () => {
    const twice = GOOD.replace('- id: wren', '- id: wren\n    role: pilot');
    expect(problemsOf(twice)[0]).toContain('more than one pilot');
    expect(problemsOf(GOOD.replace('source: off-axis', 'source: off-axis, train: owl'))[0]).toContain(
      '"owl" is none of the trains (heron, wren)',
    );
  });

  it('names mistakes of every kind at once, by line', () => {
    const wrong = `site: { latitude: 140, longitude: -1.12 }
trains:
  - id: heron
    telescop: { focalLength: 480 }
    camera: { pixelSize: "3,76" }
    frames: heron/**
  - id: heron
guiding: { source: off-axis, train: hern }
targets: [ { name: NGC 281, ra: "00:52:59" } ]
`;
    expect(problemsOf(wrong).map((problem) => problem.replace(/ keys here are .*/, ''))).toEqual([
      'rig.yaml:1: site.latitude must be at most 90: degrees, north positive',
      'rig.yaml:4: trains#1.telescop is not a key of the rig file;',
      'rig.yaml:5: trains#1.camera.pixelSize must be a number, with a decimal point in place of the comma in "3,76": micrometres',
      'rig.yaml:7: trains#2.id "heron" is used twice; every train needs its own id',
      expect.stringMatching(/^rig\.yaml:7: trains#2 \("heron"\) needs frames/),
      'rig.yaml:8: guiding.train "hern" is none of the trains (heron)',
      expect.stringMatching(/^rig\.yaml:9: targets#1 \("NGC 281"\) has ra but no dec/),
    ]);
  });

  it('names no train missing that may only lack its id', () => {
    const wrong =
      'trains: [ { name: heron, frames: a/** }, { id: wren, frames: b/** } ]\nguiding: { train: heron, source: off-axis }';
    expect(problemsOf(wrong)).toEqual([
      expect.stringContaining('trains#1.id must be text'),
      expect.stringContaining('trains#1.name is not a key'),
    ]);
  });

  it('tells a misspelt key and goes on', () => {
    const { rig, warnings } = parseRig('rig.yaml', GOOD.replace('elevation:', 'elevatoin:'));
    expect(rig.site).not.toBeNull();
    expect(rig.site?.elevationM).toBeUndefined();
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ code: 'unknown-rig-key', source: { file: 'rig.yaml', line: 2 } });
    expect(warnings[0]?.message).toContain('site.elevatoin');
  });

  it('says where keys stand that look ahead, and what is missing', () => {
    const { warnings } = parseRig(
      'rig.yaml',
      'trains: [ { id: heron, role: pilot } ]\n' +
        'targets: [ { name: Heart, ra: 38, dec: 61, priority: 2, panels: [ { name: Heart 1 } ] } ]\n',
    );
    expect(warnings.map(({ message }) => message)).toEqual([
      expect.stringMatching(/targets#1\.priority .* belongs in goals\.yaml/),
      expect.stringMatching(/targets#1\.panels .* belongs in goals\.yaml/),
    ]);
    expect(problemsOf('trains: [ { id: heron, role: pilot } ]\ntargets: [ { name: Heart, ra: 38 } ]\n')).toEqual([
      expect.stringMatching(/targets#1 \("Heart"\) has ra but no dec: give both, or neither/),
    ]);
    const { rig } = parseRig(
      'rig.yaml',
      'trains: [ { id: heron } ]\ntargets: [ { name: Heart, goals: { Ha: 9h } } ]\n',
    );
    expect(rig).toMatchObject({ targets: [], unplaced: [{ name: 'Heart', goals: { hours: { Ha: 9 } } }] });
  });

  it('says where YAML is broken', () => {
    const broken = problemsOf('trains:\n  - id: [heron\n');
    expect(broken[0]).toMatch(/^rig\.yaml:\d+: not valid YAML/);
    // Nobody is to think that this was all.
    expect(broken.at(-1)).toBe('rig.yaml: its keys and values are checked once it can be read');
    // Of what follows from one slip no more than a few lines are said, and what mostly lies behind it.
    const slip = problemsOf(`trains\n${'  - id: heron\n    role: pilot\n'.repeat(9)}site: { name: Hill }\n`);
    expect(slip.length).toBeLessThanOrEqual(4);
    expect(slip[0]).toMatch(/^rig\.yaml:1: not valid YAML: .*; is a colon missing/);
  });

  it('says so when empty', () => {
    expect(problemsOf('')[0]).toContain('nightledger init');
    expect(problemsOf('- a\n- b')[0]).toContain('not a mapping');
  });

  it('refuses a bomb of aliases', () => {
    const levels = Array.from({ length: 12 }, (_, i) =>
      i === 0
        ? 'l0: &l0 [x, x, x, x, x, x, x, x, x]'
        : `l${i}: &l${i} [${Array(9)
            .fill(`*l${i - 1}`)
            .join(', ')}]`,
    );
    expect(problemsOf(`${levels.join('\n')}\ntrains: *l11\n`)[0]).toMatch(/alias/i);
  });

  it('gives the first train the mount when no role is written', () => {
    const { rig } = parseRig('rig.yaml', 'trains: [ { id: a, frames: "a/**" }, { id: b, frames: "b/**" } ]');
    expect(rig.trains.map((t) => t.role)).toEqual(['pilot', 'companion']);
    expect(rig.site).toBeNull();
  });
});
