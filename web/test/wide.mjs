// Every screen as wide as a desk's.
import { noBarriers } from "./barriers.mjs";
import { wide } from "./browser.mjs";

export const walks = {
  "no barriers on any screen": (at) => noBarriers(at, { viewport: wide }),
};
