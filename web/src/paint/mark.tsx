/** The verdict on a question or an outlet as a shape: it is told without seeing colours. */
export function Verdict({ mark }: { mark: string }) {
  return (
    <svg class={`verdict verdict-${mark}`} width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
      {mark === "yes" || mark === "enough" ? (
        <path class="stroke" d="M3.5 10.5 8 15 16.5 5" />
      ) : mark === "not-yet" || mark === "short" ? (
        <>
          <path class="body" d="M10 1.5 18.5 10 10 18.5 1.5 10Z" />
          <path class="sign" d="M10 5.5V11M10 13.4V14.4" />
        </>
      ) : mark === "told" ? (
        <circle class="body" cx="10" cy="10" r="4" />
      ) : mark === "unused" ? (
        <path class="stroke thin" d="M4 10H16" />
      ) : (
        <>
          <circle class="stroke thin" cx="10" cy="10" r="7.5" stroke-dasharray="2.6 2.1" />
          <path class="stroke thin" d="M7.8 8.2A2.2 2.2 0 1 1 10 10.6V11.8M10 13.6V14.2" />
        </>
      )}
    </svg>
  );
}
