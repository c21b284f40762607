import { light } from "../../state/ask.ts";

/** What a row is of is lit on the drawing while the pointer is on it. */
export const lights = (...ids: string[]) => ({
  onPointerEnter: () => light(...ids),
  onPointerLeave: () => light(),
});
