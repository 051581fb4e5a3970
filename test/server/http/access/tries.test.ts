/** Tries of a password: how many are free, and how long one waits afterwards. */
import { beforeEach, describe, expect, test } from "vitest";
import { countTries, type Tries } from "../../../../server/http/access/tries.ts";

const secondMs = 1000;
let nowMs: number;
let tries: Tries;

beforeEach(() => {
  nowMs = 1_000_000;
  tries = countTries(() => nowMs);
});

/** Tries that begin now, none of them right: how many may. */
function wrong(times: number, address = "192.0.2.1"): number {
  return Array.from({ length: times }, () => tries.begin(address, "owner")).filter(
    ({ outcome }) => outcome === "may try",
  ).length;
}

function secondsToWait(address = "192.0.2.1", role: "owner" | "bench" = "owner"): number {
  const begun = tries.begin(address, role);
  if (begun.outcome === "wait") return begun.seconds;
  begun.withdraw();
  return 0;
}

function right(address: string): void {
  const begun = tries.begin(address, "owner");
  if (begun.outcome === "wait") throw new Error("must wait");
  begun.right();
}

describe("from one address", () => {
  test("five are free, however many begin at once", () => {
    expect(wrong(100)).toBe(5);
  });

  test("each further one must wait twice as long, up to a quarter of an hour", () => {
    wrong(5);
    const waits: number[] = [];
    for (let further = 0; further < 12; further += 1) {
      const seconds = secondsToWait();
      waits.push(seconds);
      nowMs += seconds * secondMs - 1;
      expect(wrong(1)).toBe(0);
      nowMs += 1;
      expect(wrong(3)).toBe(1);
    }
    expect(waits).toEqual([2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900, 900]);
  });

  test("a right one after the wait is let through, and all before it forgiven", () => {
    wrong(5);
    nowMs += 2 * secondMs;
    right("192.0.2.1");
    expect(wrong(100)).toBe(5);
  });

  test("of one role say nothing of the other, nor of another address", () => {
    wrong(5);
    expect(secondsToWait()).toBe(2);
    expect(secondsToWait("192.0.2.1", "bench")).toBe(0);
    expect(secondsToWait("192.0.2.2")).toBe(0);
  });

  test("are forgotten after a day without any", () => {
    wrong(5);
    nowMs += 24 * 3600 * secondMs;
    expect(wrong(100)).toBe(5);
  });

  test("count for nothing where nobody learned whether they were right", () => {
    for (let withdrawn = 0; withdrawn < 20; withdrawn += 1) expect(secondsToWait()).toBe(0);
  });
});

describe("from many addresses", () => {
  const addresses = (from: number, count: number) =>
    Array.from({ length: count }, (_, index) => `2001:db8::${(from + index).toString(16)}`);

  test("fifty are free, then all must wait, up to a minute", () => {
    expect(addresses(0, 200).filter((address) => wrong(1, address) === 1)).toHaveLength(50);
    expect(secondsToWait("192.0.2.9")).toBe(1);
    for (const address of addresses(200, 10)) {
      nowMs += 60 * secondMs;
      expect(wrong(1, address)).toBe(1);
    }
    expect(secondsToWait("192.0.2.9")).toBe(60);
  });

  test("nobody who has signed in before is kept out by them", () => {
    right("192.0.2.9");
    for (const address of addresses(0, 60)) wrong(1, address);
    expect(secondsToWait("192.0.2.10")).toBe(1);
    expect(secondsToWait("192.0.2.9")).toBe(0);
  });

  test("memory holds ten thousand addresses at most: the oldest gives way", () => {
    wrong(5, "192.0.2.1");
    for (const address of addresses(0, 9_999)) secondsToWait(address);
    expect(secondsToWait("192.0.2.1")).toBe(2);
    for (const address of addresses(9_999, 1)) secondsToWait(address);
    expect(secondsToWait("192.0.2.1")).toBe(0);
  });

  test("of those who have signed in before, as many are known", () => {
    for (const address of ["192.0.2.1", ...addresses(0, 9_999)]) right(address);
    for (const address of addresses(20_000, 60)) wrong(1, address);
    expect(secondsToWait("192.0.2.1")).toBe(0);
    nowMs += 60 * secondMs;
    right("192.0.2.9");
    wrong(1, "192.0.2.10");
    expect(secondsToWait("192.0.2.1")).toBeGreaterThan(0);
    expect(secondsToWait("192.0.2.9")).toBe(0);
  });
});
