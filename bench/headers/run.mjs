// Benchmark of header reading against a C program on cfitsio (cfitsio.c): whole processes, run in turn, medians.
//
//   node bench/headers/run.mjs [--frames N] [--runs N]
//
// Needs a C compiler and cfitsio (Debian: apt-get install gcc libcfitsio-dev); without them only the start is compared,
// with Node's. Files go to the system's temporary folder and are removed at the end.
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { gzipSync } from 'node:zlib';
import { bundle } from '../support/bundle.mjs';
import { goal } from '../support/goal.mjs';
import { inTurn, ratioOf, stop, timed, workFolder } from '../support/measure.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const { values: options } = parseArgs({
  options: {
    frames: { type: 'string' },
    runs: { type: 'string', default: '7' },
  },
});
const runs = Number(options.runs);
const counts = options.frames === undefined ? [2_000, 20_000] : [Number(options.frames)];
const GOALS = { few: 1.35, many: 0.65, some: 1.2, packed: 0.05 };

const work = workFolder('headers');
const js = join(work, 'js');
await bundle(js, ['gather/fits/index.ts', 'gather/fits/header-worker.ts']);
const anchor = compileAnchor();

const plain = makeFrames(Math.max(300, ...counts));
const ofNode = { run: () => timed(process.execPath, ['-e', '0']), name: '× node -e 0' };
report('300 headers with start-up', listOf('few', plain.slice(0, 300)), GOALS.few, 21, ofNode);
for (const count of counts)
  report(
    `${count} headers of 80 cards`,
    listOf(`plain-${count}`, plain.slice(0, count)),
    count >= 20_000 ? GOALS.many : GOALS.some,
    runs,
  );
// Six rounds over four files: enough that start-up is not all that is measured.
const packed = Array(6).fill(makePackedFrames(4)).flat();
report(`${packed.length} headers of 26-megapixel .fits.gz`, listOf('packed', packed), GOALS.packed, 3);

/** Runs both in turn and says how the medians compare. */
function report(what, list, most, times, other = cfitsio(list)) {
  if (other === null) {
    goal(what, null, most, '× cfitsio, which is not installed');
    return;
  }
  const ours = () => timed(process.execPath, [join(here, 'read.cjs'), js, list], { cwd: work });
  if (other !== ofNode) demandSame(ours().stdout, other.run().stdout);
  const [mine, theirs] = inTurn(times, [ours, other.run]);
  goal(what, ratioOf(mine, theirs), most, other.name);
}

function cfitsio(list) {
  return anchor === null ? null : { run: () => timed(anchor, [list], { cwd: work }), name: '× cfitsio' };
}

function demandSame(ours, theirs) {
  if (ours !== theirs) stop(`the two programs read different values:\n  nightledger: ${ours}  cfitsio:     ${theirs}`);
}

/** The C program; null where it cannot be made here. */
function compileAnchor() {
  const program = join(work, 'cfitsio');
  try {
    execFileSync('cc', ['-O2', '-o', program, join(here, 'cfitsio.c'), '-lcfitsio'], {
      stdio: ['ignore', 'ignore', 'pipe'],
      encoding: 'utf8',
    });
  } catch (error) {
    console.error(
      `The anchor could not be compiled; it needs a C compiler and cfitsio (Debian: apt-get install gcc libcfitsio-dev).\n${error.stderr ?? error.message}`,
    );
    return null;
  }
  return program;
}

function listOf(name, paths) {
  const list = join(work, `${name}.txt`);
  writeFileSync(list, `${paths.join('\n')}\n`);
  return list;
}

/** Frames of 80 cards and a few pixels, 500 to a folder; paths within the working folder, as all that follow. */
function makeFrames(count) {
  const pixels = Buffer.alloc(2880);
  return Array.from({ length: count }, (_, index) => {
    const folder = `frames-${Math.floor(index / 500)}`;
    if (index % 500 === 0) mkdirSync(join(work, folder));
    const path = `${folder}/light-${String(index).padStart(5, '0')}.fits`;
    writeFileSync(join(work, path), Buffer.concat([header(index, 24, 24), pixels]));
    return path;
  });
}

/** Gzip files of full frames with noise as cameras have it. */
function makePackedFrames(count) {
  const [width, height] = [6248, 4176];
  const pixels = Buffer.alloc(Math.ceil((width * height * 2) / 2880) * 2880);
  let state = 1;
  for (let pixel = 0; pixel < width * height; pixel++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    pixels.writeInt16BE(-31_700 + (state >>> 26) + ((state >>> 20) & 63), pixel * 2);
  }
  const bytes = gzipSync(Buffer.concat([header(0, width, height), pixels]), { level: 1 });
  const paths = Array.from({ length: count }, (_, index) => `packed-${index}.fits.gz`);
  for (const path of paths) writeFileSync(join(work, path), bytes);
  return paths;
}

/** A header of 80 cards, END included: what a capture program writes, and filler as long as the rest of them. */
function header(index, width, height) {
  const at = new Date(Date.UTC(2026, 9, 14, 18) + index * 131_417).toISOString().slice(0, 23);
  const cards = [
    card('SIMPLE', 'T'),
    card('BITPIX', 16),
    card('NAXIS', 2),
    card('NAXIS1', width),
    card('NAXIS2', height),
    card('BZERO', 32768),
    card('BSCALE', 1),
    card('DATE-OBS', `'${at}'`),
    card('TIMESYS', "'UTC'"),
    card('EXPTIME', (120 + (index % 7) * 30).toFixed(1)),
    card('IMAGETYP', "'Light Frame'"),
    card('OBJECT', `'${['NGC 281', 'IC 1396', 'M 33'][index % 3]}'`),
    card('FILTER', `'${['L', 'Ha', 'OIII', 'SII'][index % 4]}'`),
    card('TELESCOP', "'heron 80 mm refractor'"),
    card('INSTRUME', "'mono 26 MP'"),
    card('RA', (13.19 + index * 1e-6).toFixed(6)),
    card('DEC', (56.62 - index * 1e-6).toFixed(6)),
    card('OBJCTRA', "'00 52 45.6'"),
    card('OBJCTDEC', "'+56 37 12.0'"),
    card('CCD-TEMP', (-10 + (index % 5) / 10).toFixed(1)),
    card('SET-TEMP', '-10.0'),
    card('GAIN', 100),
    card('OFFSET', 50),
    card('XBINNING', 1),
    card('YBINNING', 1),
    card('XPIXSZ', '3.76'),
    card('YPIXSZ', '3.76'),
    card('EGAIN', '0.246'),
    card('FOCALLEN', '480.0'),
    card('APTDIA', '80.0'),
    card('FOCUSPOS', 12_000 + (index % 100)),
    card('FOCTEMP', '8.25'),
    card('SITELAT', '40.42'),
    card('SITELONG', '-1.12'),
    card('SITEELEV', '1100.0'),
    card('PIERSIDE', "'WEST'"),
    card('SWCREATE', "'bench'"),
    card('ROTATANG', '91.50'),
  ];
  while (cards.length < 79) cards.push(card(`FILL${cards.length}`, (cards.length * 1.25).toFixed(3)));
  const text = [...cards, 'END'.padEnd(80)].join('');
  return Buffer.from(text.padEnd(Math.ceil(text.length / 2880) * 2880), 'latin1');
}

function card(keyword, value) {
  const field = String(value).startsWith("'") ? String(value).padEnd(20) : String(value).padStart(20);
  return `${keyword.padEnd(8)}= ${field} / as the standard has it`.slice(0, 80).padEnd(80);
}
