/** Something on the drawing that can be walked to. */
export interface Stop {
  id: string;
  x: number;
  y: number;
}

export type Way = "left" | "right" | "up" | "down";

/** The nearest stop in a direction: what lies straight ahead counts before what lies aside. */
export function next(stops: readonly Stop[], from: string, way: Way): string {
  const here = stops.find((s) => s.id === from);
  if (!here) return stops[0]?.id ?? "";
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (const s of stops) {
    const dx = s.x - here.x;
    const dy = s.y - here.y;
    const ahead = { left: -dx, right: dx, up: -dy, down: dy }[way];
    const aside = way === "left" || way === "right" ? Math.abs(dy) : Math.abs(dx);
    if (s.id === from || ahead <= 0.5) continue;
    const cost = ahead + 2.5 * aside;
    if (cost < least) {
      least = cost;
      best = s.id;
    }
  }
  return best;
}
