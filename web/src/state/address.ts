/** What stands in the address before the #: the job lying open; "" on the start page. */
function read(): string {
  if (typeof location === "undefined") return "";
  const m = /^\/job\/([^/]+)\/?$/.exec(location.pathname);
  return m?.[1] ? decodeURIComponent(m[1]) : "";
}

export const jobId = read();

/** A resource of the job lying open: jobPath("/history"). */
export const jobPath = (rest = ""): string => `/api/jobs/${encodeURIComponent(jobId)}${rest}`;

export const jobAddress = (id: string): string => `/job/${encodeURIComponent(id)}`;

/** Names and values as a query; those that are empty are left out. */
export function query(...pairs: readonly (readonly [string, string])[]): string {
  const text = new URLSearchParams(pairs.filter(([, v]) => v !== "").map(([k, v]) => [k, v])).toString();
  return text === "" ? "" : `?${text}`;
}
