/** The page is kept for the time without network; only addresses that the browser trusts allow it. */
export const kept = (): boolean => location.protocol === "https:" && "serviceWorker" in navigator;

const patience = 4_000; // ms

/**
 * Has the page and what it asks for kept. It comes before anything is asked for, so that the first visit is kept
 * as well; where the browser does not allow it after all, the page works as on any address.
 */
export async function keepOffline(): Promise<void> {
  if (!kept()) return;
  const beside = navigator.serviceWorker;
  try {
    await beside.register("/offline.js");
    if (beside.controller) return;
    await new Promise<void>((go) => {
      beside.addEventListener("controllerchange", () => go(), { once: true });
      setTimeout(go, patience);
    });
  } catch {
    // As above.
  }
}
