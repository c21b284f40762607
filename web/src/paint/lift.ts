import { onRest } from "./rest.ts";

/** Things taken up from the drawing: they follow the hand by a transform, without being painted anew. */
export interface Lifted {
  /** Moves them by metres of the scene. */
  move(dx: number, dy: number): void;
  drop(): void;
}

/** Takes up all that is drawn of some things; what hangs on them is faded, its new way is drawn over it. */
export function liftThings(ids: readonly string[], faded: readonly string[]): Lifted {
  const root = document.querySelector(".drawing");
  const of = (id: string) => [
    ...(root?.querySelectorAll<SVGGElement>(`[data-id="${CSS.escape(id)}"]`) ?? []),
  ];
  const up = ids.flatMap(of);
  const pale = faded.flatMap(of);
  for (const g of up) g.classList.add("lifted");
  for (const g of pale) g.classList.add("faded");
  return {
    move(dx, dy) {
      const text = onRest(dx, dy);
      for (const g of up) g.setAttribute("transform", text);
    },
    drop() {
      for (const g of up) {
        g.classList.remove("lifted");
        g.removeAttribute("transform");
      }
      for (const g of pale) g.classList.remove("faded");
    },
  };
}
