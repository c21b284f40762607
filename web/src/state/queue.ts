/** What became of one try to send. */
export type Sent<A> = { reached: true; answer: A } | { reached: false };

interface Waiting<T, A> {
  what: T;
  settle(answer: A): void;
}

/**
 * Sends one thing after the other, in the order they came. What cannot be sent stays and is sent again
 * as it is, though it may have arrived: whoever gets it has to know it again.
 */
export class Queue<T, A> {
  private readonly rows: Waiting<T, A>[] = [];
  private running = false;
  private readonly send: (what: T) => Promise<Sent<A>>;
  private readonly pause: () => Promise<void>;
  private readonly told: (length: number, stuck: boolean) => void;

  /** told hears how many wait, and whether the program cannot be reached; pause passes before another try. */
  constructor(
    send: (what: T) => Promise<Sent<A>>,
    pause: () => Promise<void>,
    told: (length: number, stuck: boolean) => void,
  ) {
    this.send = send;
    this.pause = pause;
    this.told = told;
  }

  get length(): number {
    return this.rows.length;
  }

  put(what: T): Promise<A> {
    return new Promise((settle) => {
      this.rows.push({ what, settle });
      this.told(this.rows.length, false);
      void this.run();
    });
  }

  private async run(): Promise<void> {
    if (this.running) return;
    this.running = true;
    for (let row = this.rows[0]; row; row = this.rows[0]) {
      const sent = await this.send(row.what);
      if (!sent.reached) {
        this.told(this.rows.length, true);
        await this.pause();
        continue;
      }
      this.rows.shift();
      this.told(this.rows.length, false);
      row.settle(sent.answer);
    }
    this.running = false;
  }
}
