import assert from "node:assert/strict";
import test from "node:test";
import { fileKind, pictureName, unfit } from "./file.ts";

const bytes = (s: string) => Uint8Array.from(s, (c) => c.charCodeAt(0));

test("a file is what its first bytes say", () => {
  assert.equal(fileKind(bytes("\x89PNG\r\n\x1a\n....")), "image/png");
  assert.equal(fileKind(bytes("\xff\xd8\xff\xe0")), "image/jpeg");
  assert.equal(fileKind(bytes("RIFF....WEBPVP8 ")), "image/webp");
  assert.equal(fileKind(bytes("\n%PDF-1.7\n")), "application/pdf");
  assert.equal(fileKind(bytes("GIF89a")), "");
});

test("a file of no use is told apart in words", () => {
  assert.match(unfit(bytes("GIF89a"), "plan.png", 10), /this is a GIF/);
  assert.match(unfit(bytes("AC1032"), "plan.dwg", 10), /a DWG drawing/);
  assert.match(unfit(bytes("hello"), "notes.txt", 10), /a \.txt file/);
  assert.match(unfit(bytes("hello"), "plan.PNG", 10), /called \.PNG, but holds something else/);
  assert.match(unfit(bytes(""), "plan.png", 0), /an empty file/);
  assert.match(unfit(bytes("\xff\xd8\xff\xe0"), "plan.jpg", 30 << 20), /30\.0 MB/);
  assert.equal(unfit(bytes("%PDF-1.4"), "plan.pdf", 30 << 20), "");
});

test("a picture's name is plain and never taken twice", () => {
  assert.equal(pictureName("Größe der Halle (1).PNG", 0, "image/png", []), "gro-e-der-halle-1.png");
  assert.equal(pictureName("плaн.jpeg", 0, "image/jpeg", []), "a.jpg");
  assert.equal(pictureName("….png", 0, "image/webp", []), "floor.webp");
  assert.equal(pictureName("plan.pdf", 2, "image/png", ["plan-page-2.png"]), "plan-page-2-2.png");
});
