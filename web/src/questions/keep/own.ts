import type { JobInterval } from "../../api/types.gen.ts";

/** The shop's own intervals, with that of one task changed; null takes it back to the usual one. */
export function changed(own: readonly JobInterval[], task: string, to: JobInterval | null): JobInterval[] {
  const kept = own.filter((i) => i.task !== task);
  return to ? [...kept, to] : kept;
}
