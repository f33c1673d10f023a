/** A camera that changed telescopes during the night looks like two trains, one late and one stopping early. */
import { cameraTurns, type Frame, type Warning } from '../model/index.js';

/** A notice for each camera that was on two telescopes in turn. */
export function cameraTurnWarnings(frames: readonly Frame[]): Warning[] {
  return cameraTurns(frames).map(({ from, to, instrument }) => ({
    code: 'camera-moved',
    message:
      `all lights of ${to} come after those of ${from}, and headers call the camera of both “${instrument}”: taken ` +
      'for one camera that changed telescopes, so that neither is called late or idle while it was on the other. If ' +
      `they are two, look at the clock of ${to}, and set clockOffset: for it in the rig file`,
    train: to,
  }));
}
