// One run of the sky stage as a whole process: node place.cjs DIST INSTANTS
const { loader } = require('../support/load.cjs');

const [dist, instants] = process.argv.slice(2);
const { makeSkyObserver } = loader(dist, 'sky')('sky/index.js');
const observer = makeSkyObserver({
  name: 'Cierzo Hill',
  latitudeDeg: 40.42,
  longitudeDeg: -1.12,
  elevationM: 1100,
  timezone: 'Europe/Madrid',
  minimumAltitudeDeg: 25,
  horizon: [],
});
const target = { raDeg: 13.2458, decDeg: 56.6219 };
const begin = Date.UTC(2026, 9, 28, 18);

let separation = 0;
let altitude = 0;
for (let i = 0; i < Number(instants); i++) {
  const atMs = begin + i * 15_000;
  separation += observer.position(target, atMs).moonSeparationDeg;
  altitude += observer.at(atMs).moon.altitudeDeg;
}
console.log(
  `${instants} instants, mean separation ${(separation / instants).toFixed(2)}, mean Moon altitude ${(altitude / instants).toFixed(2)}`,
);
