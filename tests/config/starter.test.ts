import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { starterYaml, type StarterFacts } from '../../src/config/starter.js';

const HEADERS = parseRig(
  'rig.yaml',
  `
site: { latitude: 40.419999999999995, longitude: -1.12 }
trains:
  - { id: heron, role: pilot, match: { TELESCOP: heron } }
  - { id: wren, role: companion, match: { TELESCOP: wren } }
`,
).rig;

function starter(facts: Partial<StarterFacts> = {}, rig = HEADERS): string {
  return starterYaml(rig, {
    frames: {},
    filters: {},
    unplaced: [],
    logs: [],
    ownFormat: [],
    dialects: {},
    owners: Object.fromEntries(
      (facts.logs ?? []).flatMap((log) => {
        const train = ['heron', 'wren'].find((id) => log.toLowerCase().includes(id));
        return train === undefined ? [] : [[log, { train }]];
      }),
    ),
    ...facts,
  });
}

/** The part of a train, from its id to the next one or the guiding. */
function partOf(yaml: string, train: string): string {
  const from = yaml.slice(yaml.indexOf(`- id: "${train}"`));
  return from.slice(0, from.search(/\n {2}# \d+ lights|\n# What guides/));
}

describe('a starter rig file', () => {
  it('loads as it stands, and with every rule remade from its comment', () => {
    const yaml = starter();
    const rules = yaml.slice(yaml.indexOf('# rules:')).replaceAll(/^# ?/gm, '');
    for (const text of [yaml, yaml.slice(0, yaml.indexOf('# rules:')) + rules]) {
      const { rig, warnings } = parseRig('rig.yaml', text);
      expect(warnings).toEqual([]);
      expect(rig.rules).toEqual(HEADERS.rules);
    }
  });

  it('rounds what a header’s degrees and minutes leave behind the sixth place', () => {
    expect(starter()).toContain('latitude: 40.42\n');
  });

  it('names the time zone of the coordinates, not one of another continent', () => {
    const site = { name: 'a', latitudeDeg: -33.71, longitudeDeg: 150.31, minimumAltitudeDeg: 25, horizon: [] };
    const yaml = starter({}, { ...HEADERS, site: { ...site, timezone: 'Australia/Sydney' } });
    expect(yaml).toContain('# timezone: Australia/Sydney ');
    expect(parseRig('rig.yaml', yaml).rig.site?.timezone).toBe('Australia/Sydney');
  });

  it('says of a target that lies where another one does that they may be one', () => {
    const target = (name: string, raDeg: number) => ({
      name,
      raDeg,
      decDeg: 56.62,
      aliases: [],
      origin: 'headers' as const,
      goals: { hours: {}, perTrain: {} },
    });
    const targets = [target('NGC 281', 13.25), target('M 31', 10.68), target('Autumn nebula', 13.26)];
    const yaml = starter({}, { ...HEADERS, targets });
    expect(yaml).toContain('# "Autumn nebula" lies where "NGC 281" does.');
    expect(yaml).toContain('write there: aliases: [ "Autumn nebula" ]');
    expect(yaml.match(/lies where/g)).toHaveLength(1);
    expect(parseRig('rig.yaml', yaml).rig.targets).toHaveLength(3);
  });

  it('has an example of logs for each train that names no other’s', () => {
    const yaml = starter();
    for (const id of ['heron', 'wren'])
      expect(partOf(yaml, id)).toContain(`# logs: [ { files: "logs/${id}*.jsonl" } ]`);
  });

  it('gives each train the logs that bear its name, and the guiding what is called so, with the commands', () => {
    const yaml = starter({ logs: ['heron-journal.txt', 'logs/Wren.log', 'guide-errors.csv', 'hut.txt'] });
    expect(partOf(yaml, 'heron')).toContain(
      '#   nightledger dialect draft "heron-journal.txt" --session . --out "dialects/heron-journal.yaml"',
    );
    expect(partOf(yaml, 'heron')).not.toMatch(/Wren|guide-errors/);
    expect(partOf(yaml, 'wren')).toContain('#   - { files: "logs/Wren.log", dialect: "dialects/Wren.yaml" }');
    expect(yaml).toContain('#   logs: [ { files: "guide-errors.csv", dialect: "dialects/guide-errors.yaml" } ]');
  });

  it('drafts logs of one name in two folders into two dialects', () => {
    const yaml = starter({ logs: ['heron/night.txt', 'wren/night.txt', 'wren/night.csv'] });
    const names = [...yaml.matchAll(/--out "(dialects\/[^"]+)"/g)].map(([, name]) => name);
    expect([...new Set(names)].sort()).toEqual([
      'dialects/heron-night-txt.yaml',
      'dialects/wren-night-csv.yaml',
      'dialects/wren-night-txt.yaml',
    ]);
  });

  it('names logs in our own formats as they are: they need no dialect', () => {
    const logs = ['logs/heron.jsonl', 'logs/heron old.log', 'guiding.csv'];
    const yaml = starter({ logs, ownFormat: ['logs/heron.jsonl', 'guiding.csv'] });
    expect(parseRig('rig.yaml', yaml).rig.trains[0]?.logs).toEqual([{ files: ['logs/heron.jsonl'] }]);
    expect(partOf(yaml, 'heron')).toContain('# nightledger dialect draft "logs/heron old.log"');
    expect(yaml).toContain('#   logs: [ { files: "guiding.csv" } ]\n');
    expect(yaml).not.toMatch(/draft "(logs\/heron\.jsonl|guiding\.csv)"/);
  });

  it('wires a log to the train whose it is by what it says, and tells why', () => {
    const owners = {
      'one.log': { train: 'wren', by: 'it names this train’s frames' },
      'two.log': { train: 'heron', by: 'this train’s frames begin at the times it gives' },
    };
    const logs = Object.keys(owners);
    const yaml = starter({ logs, owners, ownFormat: ['one.log'], dialects: { 'two.log': '/dialects/two.yaml' } });
    const { trains } = parseRig('rig.yaml', yaml).rig;
    expect(trains.map((t) => t.logs.map(({ files }) => files))).toEqual([[['two.log']], [['one.log']]]);
    expect(partOf(yaml, 'wren')).toContain('own format; it names this train’s frames\n');
    expect(partOf(yaml, 'heron')).not.toContain('one.log');
    const draft = starter({ logs, owners });
    expect(partOf(draft, 'heron')).toMatch(/two\.yaml" \} {3}# this train’s frames begin at the times it gives/);
    expect(partOf(draft, 'heron')).not.toContain('one.log');
  });

  it('says of logs whose train is not known that it is so', () => {
    const part = partOf(starter({ logs: ['hut.txt'] }), 'heron');
    expect(part).toContain('whose train is not known');
  });

  it('offers a log that bears no train’s name to each train that has none of its own', () => {
    const yaml = starter({ logs: ['hut.txt', 'heron.txt'] });
    expect(partOf(yaml, 'wren')).toContain('"hut.txt"');
    expect(partOf(yaml, 'heron')).not.toContain('"hut.txt"');
  });

  it('puts no file’s name into a command that a shell would read otherwise', () => {
    const yaml = starter({ logs: ['$(touch x).log', '-rf.log', 'a\n- id: b.log'] });
    expect(yaml.match(/dialect draft .*/g)).toEqual(
      Array.from({ length: 6 }, () => 'dialect draft LOG --session . --out dialects/NAME.yaml'),
    );
    expect(parseRig('rig.yaml', yaml).rig.trains).toHaveLength(2);
  });

  it('makes one filter of what trains spell with a width, but not of two in one wheel', () => {
    const yaml = starter({ filters: { heron: ['H alpha 5nm', 'L'], wren: ['Ha', 'OIII 3nm', 'OIII 7nm'] } });
    expect(yaml).toContain('filters: { Ha: [ "H alpha 5nm" ] }');
    expect(parseRig('rig.yaml', yaml)).toMatchObject({ warnings: [], rig: { filterAliases: { 'H alpha 5nm': 'Ha' } } });
  });
});
