import { useEffect, useId, useMemo, useState } from "preact/hooks";
import { EntryField, entry, put } from "../../tools/building/entry.tsx";

/** A figure of the job that is typed over: what was typed becomes an edit. */
export function Figure({
  label,
  kind = "length",
  si,
  keep,
}: {
  label: string;
  kind?: "length" | "temperature";
  /** As it stands, m or K; null for none. */
  si: number | null;
  keep: (si: number | null) => void;
}) {
  const of = useMemo(() => entry(kind, si), [kind]);
  useEffect(() => put(of, si), [si]);
  return (
    <EntryField
      label={label}
      of={of}
      kept={(v) => {
        if (v !== si) keep(v);
        else put(of, si);
      }}
    />
  );
}

/** Words of the job that are typed over. */
export function Words({ label, text, keep }: { label: string; text: string; keep: (text: string) => void }) {
  const id = useId();
  const [now, setNow] = useState(text);
  useEffect(() => setNow(text), [text]);
  return (
    <label class="select entry word-field" for={id}>
      <span>{label}</span>
      <input
        id={id}
        value={now}
        maxLength={80}
        autocomplete="off"
        onInput={(e) => setNow(e.currentTarget.value)}
        onChange={(e) => {
          const to = e.currentTarget.value.trim();
          if (to !== text) keep(to);
        }}
      />
    </label>
  );
}
