import type { CatalogueKind } from "../../api/types.gen.ts";

/**
 * The sign of a kind of part, as the diagram has it: its path is in millimetres with y upwards. down turns it so
 * that the air goes down through it; signs that show where water falls stay upright.
 */
export function KindSign({ kind, down }: { kind: CatalogueKind | undefined; down?: boolean }) {
  const turned = down && !kind?.ports.some((p) => p.id === "drain");
  return (
    <svg class="kind-sign" viewBox="-6 -6 12 12" width="30" height="30" aria-hidden="true">
      {kind && <path d={kind.symbol} transform={turned ? "rotate(90) scale(1 -1)" : "scale(1 -1)"} />}
    </svg>
  );
}
