import { send } from "../api/client.ts";

/** Takes the token out of what stands behind the # of an address; the rest stays. */
export function tokenIn(hash: string): { token: string; rest: string } {
  const given = new URLSearchParams(hash.replace(/^#/, ""));
  const token = given.get("token") ?? "";
  if (token === "") return { token, rest: hash };
  given.delete("token");
  const rest = given.toString();
  return { token, rest: rest === "" ? "" : `#${rest}` };
}

/**
 * Brings the token of an address that was scanned or sent, before anything else is asked for. It does not stay in
 * the address: who looks over a shoulder, or is sent the address of a job, does not get it. A token that opens
 * nothing is no fault here: the first question is refused then, and says what to do.
 */
export async function enter(): Promise<void> {
  const { token, rest } = tokenIn(location.hash);
  if (token === "") return;
  history.replaceState(null, "", location.pathname + location.search + rest);
  try {
    await send("POST", "/api/enter", { token });
  } catch {
    // As above.
  }
}

/** A code scanned anew, where its page lies open already, changes what stands behind the # and loads nothing. */
export function enterAgain(): void {
  addEventListener("hashchange", () => {
    if (tokenIn(location.hash).token !== "") location.reload();
  });
}
