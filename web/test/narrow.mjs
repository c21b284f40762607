// Every screen on a phone.
import { noBarriers } from "./barriers.mjs";
import { phone } from "./browser.mjs";

export const walks = {
  "no barriers on a phone": (at) => noBarriers(at, { viewport: phone, hasTouch: true }),
};
