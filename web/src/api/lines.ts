/** Reads one JSON to the line as they come. */
export async function* jsonLines<T>(body: ReadableStream<Uint8Array>): AsyncGenerator<T> {
  const reader = body.getReader();
  const text = new TextDecoder();
  let rest = "";
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    const whole = (rest + text.decode(part.value, { stream: true })).split("\n");
    rest = whole.pop() ?? "";
    for (const line of whole) yield JSON.parse(line) as T;
  }
}

/** A request that is answered line by line. */
export async function askLines<T>(
  path: string,
  body: object,
  signal?: AbortSignal,
): Promise<AsyncGenerator<T> | Response> {
  const asked: RequestInit = {
    method: "POST",
    headers: { accept: "application/x-ndjson", "content-type": "application/json" },
    body: JSON.stringify(body),
  };
  if (signal) asked.signal = signal;
  const answer = await fetch(path, asked);
  return answer.ok && answer.body ? jsonLines<T>(answer.body) : answer;
}
