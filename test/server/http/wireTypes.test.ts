/**
 * The descriptions of the wire are those of the core's own types. That each is so is held by the compiler (`Same`): a description that differs
 * does not compile; here it is seen that none was left out.
 */
import { expect, test } from "vitest";
import { describesBetween } from "../../../server/http/wire/between.ts";
import { describesFindings } from "../../../server/http/wire/findings.ts";
import { describesHistory } from "../../../server/http/wire/history.ts";
import { describesPairs } from "../../../server/http/wire/story.ts";

test("history, findings, pairs and wear between visits go over the wire as the core has them", () => {
  expect([describesBetween, describesFindings, describesHistory, describesPairs]).toEqual([true, true, true, true]);
});
