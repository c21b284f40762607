/** What waits for the next frame, in order. */
let waiting: (() => void)[] = [];

function doIt(): void {
  const now = waiting;
  waiting = [];
  for (const f of now) f();
}

const longest = 100; // ms: a window out of sight is never painted

/** Does it after the next frame has been painted, in the order asked for. */
export function afterPaint(f: () => void): void {
  waiting.push(f);
  if (waiting.length > 1) return;
  const channel = new MessageChannel();
  const once = () => {
    clearTimeout(late);
    channel.port1.close();
    doIt();
  };
  channel.port1.onmessage = once;
  const late = setTimeout(once, longest);
  // In the frame's own task everything is still unpainted; the next task comes after it.
  requestAnimationFrame(() => channel.port2.postMessage(0));
}
