// One reading of a log as a whole process: node read.cjs DIST KIND FOLDER LOG [DIALECT]
const { readFileSync, writeSync } = require('node:fs');
const { leave, loader } = require('../support/load.cjs');

const [dist, kind, folder, log, dialectFile] = process.argv.slice(2);

const readers = {
  async dialect() {
    const { loadDialect, readDialectLog } = loader(dist, kind)('gather/dialects/reading.js');
    const { dialect, warnings } = loadDialect(dialectFile, readFileSync(dialectFile, 'utf8'));
    if (dialect === null) throw new Error(warnings[0]?.message);
    return (await readDialectLog(folder, log, dialect, { train: 'heron', zone: 'Europe/Madrid' })).events.length;
  },
  async events() {
    const { readEventLog } = loader(dist, kind)('gather/event-log/index.js');
    return (await readEventLog(folder, log, { train: 'heron' })).events.length;
  },
  async guiding() {
    const { readGuidingCsv } = loader(dist, kind)('gather/guiding-log/index.js');
    return (await readGuidingCsv(folder, log)).series?.atMs.length ?? 0;
  },
  // The anchors on Node: the usual library, the usual loop.
  async papaparse() {
    const Papa = require('papaparse');
    const rows = Papa.parse(readFileSync(`${folder}/${log}`, 'utf8'), { skipEmptyLines: true }).data.slice(1);
    const columns = [0, 1, 2, 3].map((column) =>
      Float64Array.from(rows, (row) => (column === 0 ? Date.parse(row[0]) : Number(row[column]))),
    );
    return columns[0].length;
  },
  async jsonLines() {
    const { createReadStream } = require('node:fs');
    const { createInterface } = require('node:readline');
    const events = [];
    for await (const line of createInterface({ input: createReadStream(`${folder}/${log}`) })) {
      const event = JSON.parse(line);
      events.push({ ...event, at: Date.parse(event.at) });
    }
    return events.length;
  },
};

/** Peak of memory, kB: what the system counts from the start of this program (proc(5)), not of the one it came from. */
function peakKilobytes() {
  try {
    return /VmHWM:\s+(\d+)/.exec(readFileSync('/proc/self/status', 'latin1'))[1];
  } catch {
    return process.resourceUsage().maxRSS;
  }
}

// Past the streams that `console` would be loaded for: of the shortest processes they are a twentieth.
readers[kind]().then((count) => {
  writeSync(1, `${count} ${peakKilobytes()}\n`);
  leave();
});
