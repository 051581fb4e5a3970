/** Who can reach the server, and when it asks for passwords or does not start. */
import { describe, expect, test } from "vitest";
import { CantStart } from "../../server/cantStart.ts";
import { placeInWords, reachFrom, refuseWithoutPassword } from "../../server/reach.ts";

describe("passwords", () => {
  test.each([undefined, "", "127.0.0.1", "localhost", "::1", "LOCALHOST", " 127.0.0.1 "])(
    "are not asked for at HOST=%s: this machine alone",
    (HOST) => expect(reachFrom({ HOST }).asksForPasswords).toBe(false),
  );

  test.each([
    "0.0.0.0",
    "::",
    "192.0.2.7",
    "2001:db8::7",
    "workshop.local",
    "127.0.0.1.example",
    "127.0.0.2",
    "0",
    "*",
  ])("are asked for at HOST=%s", (HOST) => expect(reachFrom({ HOST })).toEqual({ host: HOST, asksForPasswords: true }));

  test("are asked for on this machine, too, where that is wanted", () => {
    expect(reachFrom({ BOARDTRUE_SIGN_IN: "always" })).toEqual({ host: "127.0.0.1", asksForPasswords: true });
    expect(() => reachFrom({ BOARDTRUE_SIGN_IN: "never", HOST: "0.0.0.0" })).toThrow(CantStart);
  });
});

describe("without a password of the owner's", () => {
  const store = (hash: string | null) => ({ passwordHash: async (role: string) => (role === "owner" ? hash : "set") });
  const everywhere = reachFrom({ HOST: "0.0.0.0" });

  test("the server does not start where others could reach it, and says what to do", async () => {
    await expect(refuseWithoutPassword(everywhere, store(null))).rejects.toThrow(CantStart);
    await expect(refuseWithoutPassword(everywhere, store(null))).rejects.toThrow(/boardtrue -- password owner$/);
    await expect(refuseWithoutPassword(everywhere, store("set"))).resolves.toBeUndefined();
  });

  test("it starts on this machine alone", async () => {
    await expect(refuseWithoutPassword(reachFrom({}), store(null))).resolves.toBeUndefined();
  });
});

test.each([
  [{}, "http://127.0.0.1:4870/"],
  [{ HOST: "::1" }, "http://[::1]:4870/"],
  [{ BOARDTRUE_SIGN_IN: "always" }, "http://127.0.0.1:4870/ (with a password)"],
  [{ HOST: "192.0.2.7" }, "http://192.0.2.7:4870/ (with a password)"],
  [{ HOST: "0.0.0.0" }, "http://127.0.0.1:4870/, from other machines by this one's name or address (with a password)"],
])("%o is told as %s", (environment, words) => expect(placeInWords(reachFrom(environment), 4870)).toBe(words));
