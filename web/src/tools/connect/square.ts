import type { Vec3 } from "../space.ts";

const near = 0.05; // m: no corner for less

/** Over at the height of the first, first along the longer way, then up or down at the second. */
export function squareWay(a: Vec3, b: Vec3): Vec3[] {
  const [dx, dy, dz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const xFirst = Math.abs(dx) >= Math.abs(dy);
  const out: Vec3[] = [];
  const both = Math.abs(dx) > near && Math.abs(dy) > near;
  if (both) out.push(xFirst ? [b[0], a[1], a[2]] : [a[0], b[1], a[2]]);
  const over = Math.abs(dx) > near || Math.abs(dy) > near;
  if (over && Math.abs(dz) > near) out.push([b[0], b[1], a[2]]);
  return out;
}
