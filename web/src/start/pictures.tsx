// Small pictures of tools, one for each family, drawn in 28 by 28.

const families: readonly (readonly [RegExp, string])[] = [
  [/^(blow-gun|tyre-inflator)/, "M4 9h14l4 3v2H13l-2 10H6l2-10H4ZM22 13h4M25 9l2-2M25 17l2 2"],
  [
    /(spray|hvlp|touch-up)/,
    "M5 12h14v3h-6l-2 10H6l2-10H5ZM9 4h8l-2 8h-4ZM22 13h1M25 10l2-2M25 13h2M25 16l2 2",
  ],
  [/^(impact-wrench)/, "M4 7h13v8H4ZM17 9h5v4h-5M22 10h3v2h-3M8 15l-1 10h5l1-10"],
  [/^(ratchet)/, "M6 11a5 5 0 1 0 0 6l18-1v-4ZM6 12v4"],
  [/sander|polisher/, "M5 20h18M6 20v-3h16v3M9 17c0-5 2-7 5-7s5 2 5 7M14 10V6h9"],
  [/grinder|cut-off/, "M3 12h14v6H3ZM17 13h3v4h-3M23 8v14M20 8v14"],
  [/drill/, "M4 7h12v7H4ZM16 9l4 1v1l-4 1M20 10.5h7M6 14l-1 10h5l1-10"],
  [/nailer/, "M6 5h9v9H6ZM9 14v10h4V14M15 8h8l-2 5h-6M10 24l1 3 1-3"],
  [/blast/, "M5 9h18v12H5ZM8 12h8v5H8ZM18 13v3M20 13v3M7 21v4M21 21v4M11 9V5h6v4"],
  [/hammer|scaler/, "M3 10h13v7H3ZM16 12h5v3h-5M21 13.5h6M7 17l-1 8h5l1-8M26 11v5"],
  [/hoist/, "M6 4h16M14 4v4M9 8h10v8H9ZM14 16v5M14 21a3 3 0 1 0 3 3"],
  [/grease|caulking/, "M3 11h15v6H3ZM18 13l8 1-8 1M8 17l-1 8h4l1-8M3 14H1"],
  [/clamp|press/, "M5 24h18M8 24V5h12v19M14 5v8M10 13h8v3h-8Z"],
  [/washer|shaker/, "M7 9h14l-2 15H9ZM5 9h18M11 5h6v4"],
];

const plain = "M6 14h16M14 6v16";

/** The picture of a class of tool. */
export function Picture({ item }: { item: string }) {
  return (
    <svg class="tool-picture" viewBox="0 0 28 28" width="28" height="28" aria-hidden="true">
      <path d={families.find(([name]) => name.test(item))?.[1] ?? plain} />
    </svg>
  );
}
