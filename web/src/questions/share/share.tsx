import { signal } from "@preact/signals";
import { useEffect, useId } from "preact/hooks";
import { get } from "../../api/client.ts";
import type { Share as Answer } from "../../api/types.gen.ts";
import { jobAddress, jobId, jobPath } from "../../state/address.ts";
import { shareWords as say } from "../../words/panels.ts";

const answer = signal<Answer | null>(null);
const fault = signal("");
const copied = signal("");

/** The address that leads straight to a job: the token stays behind the #, which browsers do not send. */
export function addressOf(address: string, path: string): string {
  const at = address.indexOf("#");
  const before = at < 0 ? address : address.slice(0, at);
  return before.replace(/\/$/, "") + path + (at < 0 ? "" : address.slice(at));
}

async function copy(text: string): Promise<void> {
  try {
    await navigator.clipboard.writeText(text);
    copied.value = text;
  } catch {
    // The browser keeps its clipboard to itself on plain addresses: the field is there to be marked and copied.
    copied.value = "";
  }
}

function Address({ words, text }: { words: string; text: string }) {
  const id = useId();
  return (
    <div class="share-address">
      <label for={id}>{words}</label>
      <input id={id} type="text" readOnly value={text} onFocus={(e) => e.currentTarget.select()} />
      {globalThis.isSecureContext && (
        <button type="button" class="go" aria-label={`${say.copy}: ${words}`} onClick={() => void copy(text)}>
          {copied.value === text ? say.copied : say.copy}
        </button>
      )}
    </div>
  );
}

function Network({ share }: { share: Answer }) {
  return (
    <>
      <p>{say.open}</p>
      <img
        class="share-qr"
        src={`data:image/svg+xml,${encodeURIComponent(share.qr_svg)}`}
        alt={say.qr}
        width="220"
        height="220"
      />
      <p class="soft">{say.qr}</p>
      <Address words={say.address} text={share.address} />
      <Address words={say.thisJob} text={addressOf(share.address, jobAddress(jobId))} />
    </>
  );
}

/** How a phone comes to load the page with the network gone. */
function Offline({ fingerprint }: { fingerprint: string }) {
  return (
    <>
      <h3>{say.offline}</h3>
      {fingerprint === "" ? (
        <p class="soft">
          {say.offlineClear} <code>{say.trustedCommand}</code>.
        </p>
      ) : (
        <>
          <ol>
            {say.offlineSteps.map((s, i) => (
              <li key={s}>
                {s} {i === 1 && <code class="fingerprint">{fingerprint}</code>}
              </li>
            ))}
          </ol>
          <p>
            <a class="go" href="/certificate.crt" download="dropleg.crt">
              {say.certificate}
            </a>
          </p>
          <p class="soft">{say.trustCare}</p>
        </>
      )}
    </>
  );
}

/** How others see the job: over the network, or as a file. */
export function Share() {
  useEffect(() => {
    get<Answer>("/api/share").then(
      (a) => {
        answer.value = a;
      },
      (e: unknown) => {
        fault.value = e instanceof Error ? e.message : String(e);
      },
    );
  }, []);
  const share = answer.value;
  return (
    <section class="share">
      <h2>{say.title}</h2>
      {!share && <p class="soft">{fault.value || say.asking}</p>}
      {share?.network && <Network share={share} />}
      {share && !share.network && (
        <p>
          {say.alone} {say.how} <code>{say.command}</code>. {say.after}
        </p>
      )}
      <section class="cautions">
        <p>{share?.fingerprint ? say.careTrusted : say.care}</p>
      </section>
      {share?.network && <Offline fingerprint={share.fingerprint} />}
      <h3>{say.file}</h3>
      <p class="soft">{say.fileNote}</p>
      <p>
        <a class="go" href={jobPath("/file")} download>
          {say.export}
        </a>
      </p>
    </section>
  );
}
