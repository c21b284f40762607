import assert from "node:assert/strict";
import { test } from "node:test";
import { addressOf } from "./share.tsx";

test("the address of a job keeps the token behind the #", () => {
  assert.equal(
    addressOf("http://192.0.2.7:8080/#token=00ff", "/job/boat-shed"),
    "http://192.0.2.7:8080/job/boat-shed#token=00ff",
  );
  assert.equal(addressOf("http://192.0.2.7:8080/", "/job/a"), "http://192.0.2.7:8080/job/a");
});
