export { readGuidingCsv, type GuidingRead } from './read-guiding-csv.js';
