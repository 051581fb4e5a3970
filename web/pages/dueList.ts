/** The due list: what has reached its limit first, then the soonest, then those that can't be told yet; a part at a time. */
import { due as askDue, type DueLine, type DueList, further } from "../api/instruments.ts";
import { storyPage } from "../views/addresses.ts";
import { element, fill } from "../views/element.ts";
import { bdi, kindText, shortDayText } from "../views/recordWords.ts";
import { refusal } from "../views/refusal.ts";
import { dressingText, endText } from "../views/whenText.ts";
import { wordTable } from "../views/wordTable.ts";
import type { Shell } from "./shell.ts";

const atOnce = 200;

export async function openDue({ base, main }: Shell): Promise<void> {
  document.title = "Due · Boardtrue";
  const said = element("p", { class: "said", role: "status" });
  const lines = wordTable("What is due, the most urgent first", [
    ...["number", "instrument", "last visit", "next dressing", "end of the board"],
  ]);
  const more = element("button", { type: "button", hidden: true }, "More of them");
  fill(main, element("h1", { class: "page-name" }, "Due"), said, lines.element, more);

  const line = ({ number, kind, size, label, lastVisit, outlook }: DueLine): readonly (Node | string)[] => [
    element("a", { href: storyPage(base, number) }, bdi(number)),
    element("span", {}, kindText({ kind, size }), ...(label === "" ? [] : [". ", bdi(label)])),
    lastVisit === null ? "no visit yet" : shortDayText(lastVisit),
    dressingText(outlook.dressing),
    endText(outlook.end),
  ];
  async function show(asked: ReturnType<typeof askDue>): Promise<void> {
    const reply = await asked;
    if (reply.outcome === "refused") return fill(said, ...refusal(reply));
    const { due, next } = reply.body;
    lines.add(due.map(line));
    lines.element.hidden = lines.element.tBodies[0]?.rows.length === 0;
    if (lines.element.hidden) fill(said, "No instrument is in the records yet.");
    more.hidden = next === null;
    more.onclick = next === null ? null : () => void show(further<DueList>(next));
  }
  await show(askDue(base, atOnce));
}
