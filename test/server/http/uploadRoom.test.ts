/** The room that all uploads under way share: what it takes, whom it refuses, and that it is given back once and whole. */
import { expect, test } from "vitest";
import { Problem } from "../../../server/http/problems.ts";
import { uploadRoom } from "../../../server/http/uploadRoom.ts";

const refused = (work: () => void): Problem | null => {
  try {
    work();
    return null;
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
};

test("uploads fill it to its last byte; the one that would go over is refused and told to come again", () => {
  const room = uploadRoom(100);
  const [first, second] = [room.enter(), room.enter()];
  first.grow(60);
  second.grow(40);
  const refusal = refused(() => second.grow(1));
  expect(refusal?.kind).toBe("busy");
  expect(refusal?.particulars.retryAfterSeconds).toBeGreaterThan(0);
});

test("what an upload leaves is free for the next, and leaving twice gives nothing twice", () => {
  const room = uploadRoom(100);
  const [first, second, third] = [room.enter(), room.enter(), room.enter()];
  first.grow(60);
  second.grow(40);
  first.leave();
  first.leave();
  third.grow(60);
  expect(refused(() => third.grow(1))?.kind).toBe("busy");
});

test("a refused byte takes no room", () => {
  const room = uploadRoom(100);
  const [first, second] = [room.enter(), room.enter()];
  first.grow(90);
  expect(refused(() => second.grow(20))?.kind).toBe("busy");
  second.grow(10);
  expect(refused(() => second.grow(1))?.kind).toBe("busy");
});

test("an answer is never refused for want of room, but leaves less to those that come after it", () => {
  const room = uploadRoom(100);
  const [answered, next] = [room.enter(), room.enter()];
  answered.growAnyhow(150);
  expect(refused(() => next.grow(1))?.kind).toBe("busy");
  answered.leave();
  next.grow(100);
});
