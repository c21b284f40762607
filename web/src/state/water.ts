import { computed, signal } from "@preact/signals";
import { question } from "./ask.ts";
import { water } from "./data.ts";

/** The season that is shown: what freezes and what is wet differ. */
export const season = signal("cold");

/** The season's answer; the first where the chosen one is not told. */
export const seasonShown = computed(() => {
  const all = water.value.value?.seasons ?? [];
  return all.find((s) => s.season === season.value) ?? all[0];
});

/** Lines in which water collects ("wet") or freezes ("ice"), while the question is of water. */
export const damp = computed<ReadonlyMap<string, "wet" | "ice">>(() => {
  if (question.value !== "dry") return new Map();
  return new Map(seasonShown.value?.lines.map((l) => [l.id, l.freezes ? "ice" : "wet"]));
});
