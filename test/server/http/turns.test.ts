/** Turns: so many at once, the others in order. */
import { expect, test } from "vitest";
import { turns } from "../../../server/http/turns.ts";

/** A task that ends when told to. */
function held() {
  let end: (outcome?: Error) => void = () => undefined;
  const ended = new Promise<void>((resolve, reject) => {
    end = (error) => (error === undefined ? resolve() : reject(error));
  });
  return { task: () => ended, end: (error?: Error) => end(error) };
}

const soon = () => new Promise<void>((resolve) => setTimeout(resolve, 5));

test("two at once; the third and fourth wait, and come in their order, even after one that failed", async () => {
  const turn = turns(2);
  const begun: number[] = [];
  const tasks = [held(), held(), held(), held()];
  const done = tasks.map(({ task }, i) =>
    turn(() => {
      begun.push(i);
      return task();
    }),
  );
  const failed = expect(done[1]).rejects.toThrow("slipped");
  await soon();
  expect(begun).toEqual([0, 1]);
  tasks[1]!.end(new Error("slipped"));
  await failed;
  await soon();
  expect(begun).toEqual([0, 1, 2]);
  tasks[0]!.end();
  await soon();
  expect(begun).toEqual([0, 1, 2, 3]);
  tasks[2]!.end();
  tasks[3]!.end();
  await Promise.all([done[0], done[2], done[3]]);
  // All places are free again.
  let ran = false;
  await turn(async () => {
    ran = true;
  });
  expect(ran).toBe(true);
});
