// What is typed or chosen, under its label.

/** A field that is written into: it holds what was typed in whatever keeps it, a signal or a part of a draft. */
export function Field(
  at: Readonly<{
    label: string;
    of: { value: string };
    hint?: string;
    mode?: "decimal" | "numeric" | "text";
  }>,
) {
  return (
    <label class="measure">
      <span>{at.label}</span>
      <input
        type="text"
        inputMode={at.mode ?? "decimal"}
        autocomplete="off"
        placeholder={at.hint ?? ""}
        value={at.of.value}
        onInput={(e) => {
          at.of.value = e.currentTarget.value;
        }}
      />
    </label>
  );
}

/** One of several, chosen. */
export function Chosen(
  at: Readonly<{
    label: string;
    value: string;
    options: readonly (readonly [string, string])[];
    put: (value: string) => void;
    disabled?: boolean;
  }>,
) {
  return (
    <label class="measure">
      <span>{at.label}</span>
      <select
        value={at.value}
        disabled={at.disabled ?? false}
        onChange={(e) => at.put(e.currentTarget.value)}
      >
        {at.options.map(([id, say]) => (
          <option key={id} value={id}>
            {say}
          </option>
        ))}
      </select>
    </label>
  );
}
