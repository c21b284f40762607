// Words on a small drawing: where they would lie on each other, they give way.

export interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

export const over = (a: Box, b: Box): boolean =>
  a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;

/**
 * Finds a place for each: the first of its tries that is free of what stands already and of those before it, or null.
 */
export function placed(all: readonly (readonly Box[])[], stands: readonly Box[] = []): (Box | null)[] {
  const taken = [...stands];
  return all.map((tries) => {
    const free = tries.find((t) => !taken.some((b) => over(t, b)));
    if (free) taken.push(free);
    return free ?? null;
  });
}

/** About how wide a text is, px, of a font so large. */
export const wide = (text: string, px: number): number => 0.56 * px * text.length;
