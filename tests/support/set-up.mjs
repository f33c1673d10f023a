/** Before any test: the program compiled, where it is older than its sources. `npm test` has done so already. */
import { compile } from '../../scripts/prepare.mjs';

export default function setUp() {
  compile({ checked: false });
}
