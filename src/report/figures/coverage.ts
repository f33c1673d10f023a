export {
  coverageOf,
  EXPOSURE_TOLERANCE,
  TEMPERATURE_TOLERANCE_C,
  type Coverage,
  type LightGroup,
} from '../../model/index.js';
