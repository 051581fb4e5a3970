/** What is written down about a visit: what gets into the records, and what is refused, all of it together. */
import { describe, expect, test } from "vitest";
import { playerGiven, visitNotes } from "../../../server/keeping/visitNotes.ts";

describe("notes on a visit", () => {
  test("are taken as a form brings them: all of them texts", () => {
    const read = visitNotes({
      reason: "  buzzes on A\r\nin first position ",
      gauge: "dial gauge 2",
      rail: "long rail",
      humidityPercent: "45,5",
      hoursPlayed: "300",
      decisionTaken: "Dress",
      workDone: "new board",
      workNotes: "",
      afterVisit: "",
    });
    expect(read).toEqual({
      outcome: "checked",
      notes: {
        reason: "buzzes on A\nin first position",
        gauge: "dial gauge 2",
        rail: "long rail",
        humidityPercent: 45.5,
        hoursPlayed: 300,
        decisionTaken: "dress",
        workDone: "new board",
        workNotes: "",
        afterVisit: null,
      },
    });
  });

  test("hold only what was said: the rest stays as it is", () => {
    expect(visitNotes({ humidityPercent: 0 })).toEqual({ outcome: "checked", notes: { humidityPercent: 0 } });
    expect(visitNotes({})).toEqual({ outcome: "checked", notes: {} });
  });

  test("are taken back by null", () => {
    const nothing = { reason: null, hoursPlayed: null, decisionTaken: null, workDone: null, withdrawn: null };
    expect(visitNotes(nothing)).toEqual({
      outcome: "checked",
      notes: { reason: "", hoursPlayed: null, decisionTaken: null, workDone: "none", withdrawn: null },
    });
  });

  test.each([
    ["more humidity than there is", { humidityPercent: 100.5 }, "not-in-range", "from 0 to 100"],
    ["negative humidity", { humidityPercent: "-3" }, "not-in-range", "from 0 to 100"],
    ["humidity that is no number", { humidityPercent: "dry" }, "not-in-range", "from 0 to 100"],
    ["hours without end", { hoursPlayed: Number.POSITIVE_INFINITY }, "not-in-range", "from 0 to 100000"],
    ["hours written as a power", { hoursPlayed: "1e3" }, "not-in-range", "from 0 to 100000"],
    ["a decision that is none", { decisionTaken: "dres" }, "not-a-choice", "Did you mean dress"],
    ["a work that is none", { workDone: "planed" }, "not-a-choice", "Choose one of: none, dressed"],
    ["a note without end", { reason: "x".repeat(4001) }, "too-long", "at most 4000"],
    ["a note that turns writing round", { workNotes: "\u202edesserd" }, "unprintable", "Type it anew"],
  ])("are refused with %s", (_, said, code, remedy) => {
    expect(visitNotes(said)).toMatchObject({
      outcome: "faulty",
      faults: [{ where: "visit", code, remedy: expect.stringContaining(remedy) }],
    });
  });

  test("are refused with every fault at once", () => {
    const read = visitNotes({ humidityPercent: "wet", workDone: "planed", reason: "\u0000" });
    expect(read.outcome === "faulty" && read.faults.length).toBe(3);
  });
});

describe("what concerns the player", () => {
  test("may be the hand, the notes, or both", () => {
    expect(playerGiven({ hand: " small hand " })).toEqual({
      outcome: "checked",
      player: { hand: "small hand", notes: "" },
    });
  });

  test("is refused with both faults at once", () => {
    const read = playerGiven({ hand: "\u0000", notes: "x".repeat(4001) });
    expect(read).toMatchObject({ outcome: "faulty", faults: [{ code: "unprintable" }, { code: "too-long" }] });
  });
});
