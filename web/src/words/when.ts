// Times as people say them, in the browser's own time of day.

const days = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];
const months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

const minute = 60_000;
const two = (n: number): string => String(n).padStart(2, "0");

/** "14:20". */
export const clock = (at: Date): string => `${two(at.getHours())}:${two(at.getMinutes())}`;

/** How many midnights lie between two moments: 0 on one day, 1 for yesterday. Days of 23 and 25 hours count as one. */
export function midnights(now: Date, at: Date): number {
  const day = (d: Date) => Date.UTC(d.getFullYear(), d.getMonth(), d.getDate());
  return Math.round((day(now) - day(at)) / (24 * 60 * minute));
}

const date = (now: Date, at: Date): string => {
  const short = `${at.getDate()} ${months[at.getMonth()]}`;
  return at.getFullYear() === now.getFullYear() ? short : onDay(at);
};

/** "25 November 2026". */
export const onDay = (at: Date): string => `${at.getDate()} ${months[at.getMonth()]} ${at.getFullYear()}`;

/** The heading of a day: "Today", "Yesterday", "Wednesday, 25 November". */
export function dayWords(now: Date, at: Date): string {
  const n = midnights(now, at);
  if (n === 0) return "Today";
  if (n === 1) return "Yesterday";
  return `${days[at.getDay()]}, ${date(now, at)}`;
}

const count = (n: number, one: string, more: string): string => (n === 1 ? `one ${one}` : `${n} ${more}`);

/** How long ago in words: "just now", "5 minutes ago", "yesterday at 14:20", "on Monday at 14:20", "on 3 May 2024". */
export function ago(now: Date, at: Date): string {
  const passed = now.getTime() - at.getTime();
  // Clocks of two computers differ by a little: what lies shortly ahead is now.
  if (passed < minute) return passed > -2 * minute ? "just now" : `on ${date(now, at)} at ${clock(at)}`;
  if (passed < 60 * minute) return `${count(Math.floor(passed / minute), "minute", "minutes")} ago`;
  const n = midnights(now, at);
  if (n === 0) return `${count(Math.floor(passed / (60 * minute)), "hour", "hours")} ago`;
  if (n === 1) return `yesterday at ${clock(at)}`;
  if (n < 7) return `on ${days[at.getDay()]} at ${clock(at)}`;
  return `on ${date(now, at)}`;
}
