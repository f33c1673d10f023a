import base from './vitest.compiled.config.js';
const cfg = base as any;
cfg.test.setupFiles = [...cfg.test.setupFiles, '/tmp/wt/tests-b/.cache/measure.mjs'];
cfg.test.maxWorkers = Number(process.env.MW ?? 1);
if (process.env.PROF) cfg.test.execArgv = [...cfg.test.execArgv, '--cpu-prof', `--cpu-prof-dir=${process.env.PROF}`];
if (process.env.XARGS) cfg.test.execArgv = [...cfg.test.execArgv, ...process.env.XARGS.split(' ')];
export default cfg;
