import { signal } from "@preact/signals";
import { listen } from "../api/client.ts";

/** The newest revision of the file that the program has told of; 0 before it has. */
export const revision = signal(0);
/** The program answers. */
export const reached = signal(true);

export function follow(): void {
  listen(
    (c) => {
      revision.value = c.revision;
    },
    (ok) => {
      reached.value = ok;
    },
  );
}
