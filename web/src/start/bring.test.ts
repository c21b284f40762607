import assert from "node:assert/strict";
import { test } from "node:test";
import { kindOf, pictureName, titleFrom } from "./bring.ts";

test("a file is known by its name, else by its kind", () => {
  const rows: [string, string, string][] = [
    ["shop.json", "application/json", "job"],
    ["shop.ZIP", "", "job"],
    ["plan.pdf", "", "pdf"],
    ["plan.JPG", "", "picture"],
    ["scan", "image/webp", "picture"],
    ["notes.txt", "text/plain", ""],
  ];
  for (const [name, type, want] of rows) assert.equal(kindOf({ name, type }), want, name);
});

test("a picture keeps as much of its name as the program allows", () => {
  assert.equal(pictureName("Grundriß Werkstatt (2).png"), "Grundri-Werkstatt-2-.png");
  assert.equal(pictureName("../../x.png"), "x.png");
  assert.equal(pictureName("///"), "plan");
});

test("a shop is called like its plan", () => {
  assert.equal(titleFrom("boat_shed-ground floor.pdf"), "boat shed ground floor");
  assert.equal(titleFrom(".png"), "New shop");
});
