/** The due list: what has reached its limit first, then the soonest, then those that can't be told yet; a part at a time. */
import { due as askDue, type DueLine, type DueList, further } from "../api/instruments.ts";
import { storyPage } from "../views/addresses.ts";
import { element, fill, row, table } from "../views/element.ts";
import { bdi, kindText, shortDayText } from "../views/recordWords.ts";
import { refusal } from "../views/refusal.ts";
import { whenText } from "../views/whenText.ts";
import type { Shell } from "./shell.ts";

const atOnce = 200;

export async function openDue({ base, main }: Shell): Promise<void> {
  document.title = "Due · Boardtrue";
  const said = element("p", { class: "said", role: "status" });
  const lines = table(
    "What is due, the most urgent first",
    ["number", "instrument", "label", "last visit", "next dressing", "end of the board"],
    [],
  );
  const more = element("button", { type: "button", hidden: true }, "More of them");
  fill(main, element("h1", { class: "page-name" }, "Due"), said, lines, more);

  const line = ({ number, kind, size, label, lastVisit, outlook }: DueLine): HTMLTableRowElement =>
    row(
      element("a", { href: storyPage(base, number) }, bdi(number)),
      kindText({ kind, size }),
      bdi(label),
      lastVisit === null ? "no visit yet" : shortDayText(lastVisit),
      whenText(outlook.dressing),
      whenText(outlook.end),
    );
  async function show(asked: ReturnType<typeof askDue>): Promise<void> {
    const reply = await asked;
    if (reply.outcome === "refused") return fill(said, ...refusal(reply));
    const { due, next } = reply.body;
    lines.tBodies[0]?.append(...due.map(line));
    if (lines.rows.length <= 1) fill(said, "No instrument is in the records yet.");
    more.hidden = next === null;
    more.onclick = next === null ? null : () => void show(further<DueList>(next));
  }
  await show(askDue(base, atOnce));
}
