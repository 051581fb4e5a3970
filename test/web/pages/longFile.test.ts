import { describe, expect, test } from "vitest";
import { aboutHowMany, busyText, longFromBytes } from "../../../web/pages/longFile.ts";

const scan = (rows: number) => new File([`x,y,height\n${"104.25,-12.50,13.041\n".repeat(rows)}`], "scan.csv");

describe("about how many readings", () => {
  test("a bench's file holds is not told: it is answered at once", async () => {
    expect(await aboutHowMany(new File(["7".repeat(longFromBytes - 1)], "a.csv"))).toBeNull();
  });

  test.each([6_000, 100_000, 1_000_000])("a scan of %i holds is told to two digits", async (rows) => {
    expect(await aboutHowMany(scan(rows))).toBe(rows);
  });

  test("a file of one endless line holds is still a number", async () => {
    expect(await aboutHowMany(new File(["7".repeat(2 * longFromBytes)], "a.csv"))).toBeNull();
  });
});

describe("what is said meanwhile", () => {
  test("of a bench's file is its name", () => {
    expect(busyText("a.csv", null, { stage: "sending", share: 0.5 })).toBe("Examining a.csv…");
  });

  test("of a scan is how much has been sent, then that it is examined", () => {
    const said = (share: number) => busyText("scan.csv", 100_000, { stage: "sending", share });
    expect(said(0)).toBe("Sending scan.csv, about 100,000 readings: 0 %");
    expect(said(0.49)).toBe("Sending scan.csv, about 100,000 readings: 40 %");
    expect(busyText("scan.csv", 100_000, { stage: "examining" })).toBe("Examining scan.csv, about 100,000 readings…");
  });
});
