/** Prints one part of the page by itself: what stands in it, and nothing round it. See style/print.css. */
export function printOnly(part: Element | null): void {
  if (!(part instanceof HTMLElement)) return;
  const root = document.documentElement;
  part.dataset.printed = "yes";
  root.dataset.print = "part";
  addEventListener(
    "afterprint",
    () => {
      delete part.dataset.printed;
      delete root.dataset.print;
    },
    { once: true },
  );
  print();
}
