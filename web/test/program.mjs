// The built program, started on a store of its own in a temporary folder, killed and started again.
import { execFile, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { promisify } from "node:util";

const patience = 30_000; // ms until the program must have told its address

/** A port that nobody listens at: the program comes back at the same one after it was killed. */
function freePort() {
  return new Promise((go, no) => {
    const s = createServer();
    s.once("error", no);
    s.listen(0, "127.0.0.1", () => {
      const { port } = s.address();
      s.close(() => go(port));
    });
  });
}

export class Program {
  #binary;
  #folder;
  #env;
  #listen = "";
  #port = 0;
  #process = null;

  constructor(binary) {
    this.#binary = binary;
    this.#folder = mkdtempSync(join(tmpdir(), "dropleg-page-"));
    this.#env = {
      PATH: process.env.PATH,
      HOME: this.#folder,
      AppData: this.#folder,
      DROPLEG_STORE: join(this.#folder, "jobs.db"),
    };
  }

  /** A file of the program's own folder. */
  file(name) {
    return join(this.#folder, name);
  }

  /** Where the page is, without a slash at its end. */
  get base() {
    return `http://${this.#listen}`;
  }

  /** Starts the server, on a job or on nothing, and gives the address that it tells. */
  async start(...job) {
    this.#listen ||= `127.0.0.1:${await freePort()}`;
    const [address] = await this.#run(["open", ...job, "--no-browser", "--listen", this.#listen], 1);
    return address;
  }

  /** Starts it for others too, as a flag says; gives its address on this computer and that for the network. */
  async startOpen(flag, job) {
    this.#port ||= await freePort();
    const addresses = await this.#run(["open", job, flag, "--no-browser", "--listen", `0.0.0.0:${this.#port}`], 2);
    this.#listen = new URL(addresses[0]).host;
    return addresses;
  }

  /** Runs it, and gives the lines that it tells first. */
  async #run(args, lines) {
    const running = spawn(this.#binary, args, { env: this.#env, stdio: ["ignore", "pipe", "pipe"] });
    this.#process = running;
    let told = "";
    running.stderr.on("data", (text) => {
      told += text;
    });
    const addresses = await new Promise((go, no) => {
      const heard = [];
      const timer = setTimeout(() => no(new Error(`the program tells no address: ${told}`)), patience);
      createInterface(running.stdout).on("line", (line) => {
        if (heard.push(line) < lines) return;
        clearTimeout(timer);
        go(heard);
      });
      running.once("exit", (code) => {
        clearTimeout(timer);
        no(new Error(`the program ended with ${code}: ${told}`));
      });
    });
    running.removeAllListeners("exit");
    running.stdout.resume();
    return addresses;
  }

  /** Starts it where it does not run. */
  async begin() {
    if (!this.#process) await this.start();
  }

  /** Ends it as Ctrl-C does, or at once. */
  async stop(signal = "SIGINT") {
    const running = this.#process;
    this.#process = null;
    if (!running || running.exitCode !== null) return;
    const ended = new Promise((go) => {
      running.once("exit", go);
    });
    running.kill(signal);
    await ended;
  }

  /** Runs another command on the same store. Its design falling short is no failure. */
  async command(...args) {
    try {
      const { stdout } = await promisify(execFile)(this.#binary, args, {
        env: this.#env,
        maxBuffer: 1 << 26,
      });
      return stdout;
    } catch (e) {
      if (e.code === 1) return e.stdout;
      throw new Error(`dropleg ${args.join(" ")}: ${e.stderr || e.message}`);
    }
  }

  /** Asks the program as a page of it does. */
  async ask(path, body, method = body === undefined ? "GET" : "POST") {
    const answer = await fetch(this.base + path, {
      method,
      headers: { origin: this.base, "content-type": "application/json" },
      ...(body === undefined ? {} : { body: typeof body === "string" ? body : JSON.stringify(body) }),
    });
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${text}`);
    return text === "" ? null : JSON.parse(text);
  }

  /** A job of its own, of what POST /api/jobs takes or of a file's text; gives its id. */
  async job(of) {
    return (await this.ask("/api/jobs", of)).id;
  }

  /** The job as its file has it. */
  document(id) {
    return this.ask(`/api/jobs/${id}/file`);
  }

  /** Makes a step as another browser would. */
  async step(id, step, by = "the test") {
    const { revision } = await this.ask(`/api/jobs/${id}`);
    return this.ask(`/api/jobs/${id}/steps`, { base: revision, by, step });
  }

  async end() {
    await this.stop("SIGKILL");
    rmSync(this.#folder, { recursive: true, force: true });
  }
}
