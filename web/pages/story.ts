/**
 * An instrument's story on one page: who it is, when it is likely due, how fast it wears, and its visits, newest first.
 *
 * In: the number of the address. Out: the page; a number that is not there is told, with the way to add it.
 */
import { type Base, instrumentAddress } from "../api/addresses.ts";
import { story as askStory, type Instrument, type Story } from "../api/instruments.ts";
import type { VisitSummary } from "../api/visits.ts";
import { scatterText } from "../chart/format.ts";
import { benchPage, instrumentsPage, visitPage } from "../views/addresses.ts";
import { element, fill, list } from "../views/element.ts";
import { bdi, deepestText, edgeText, foundText, kindText, shortDayText, workWords } from "../views/recordWords.ts";
import { refusal } from "../views/refusal.ts";
import { dressingText, endText } from "../views/whenText.ts";
import { wordTable } from "../views/wordTable.ts";
import type { Shell } from "./shell.ts";

export async function openStory({ base, main }: Shell, number: string): Promise<void> {
  document.title = `${number} · Boardtrue`;
  const reply = await askStory(base, number);
  if (reply.outcome === "refused") {
    const way = element("a", { href: instrumentsPage(base) }, "Find or add it under Instruments.");
    fill(main, heading(number, null), element("p", { class: "said" }, ...refusal(reply), " ", way));
    return;
  }
  const { instrument, visits, history } = reply.body;
  fill(
    main,
    heading(instrument.number, instrument),
    element("h2", {}, "What is due"),
    list([
      ["Next dressing", dressingText(history.outlook.dressing)],
      ["End of the board", endText(history.outlook.end)],
      ["Growth of the deepest wear", rateText(history)],
    ]),
    element(
      "p",
      { class: "ways-on" },
      element("a", { class: "bring", href: benchPage(base, instrument.number) }, "Start a visit"),
      element("a", { href: `${instrumentAddress(base, instrument.number)}/history.csv` }, "History as CSV"),
    ),
    visits.length === 0 ? element("p", {}, "No visit yet.") : visitsTable(base, visits),
  );
}

function heading(number: string, instrument: Instrument | null): HTMLElement {
  const words = instrument === null ? [] : [", ", kindText(instrument).toLowerCase()];
  return element(
    "header",
    {},
    element("h1", { class: "page-name" }, bdi(number), ...words),
    instrument === null || instrument.label === "" ? null : element("p", {}, bdi(instrument.label)),
  );
}

function rateText({ perYear, perHundredHours }: Story["history"]): string {
  if (perYear.told === "not yet") return `Can’t tell yet: ${perYear.why}`;
  const [from, to] = perYear.interval;
  const hours =
    perHundredHours.told === "rate" ? `; ${scatterText(perHundredHours.mm)} in a hundred hours of playing` : "";
  return `${scatterText(perYear.mm)} a year, likely ${scatterText(from)} to ${scatterText(to)}${hours}`;
}

function visitsTable(base: Base, visits: readonly VisitSummary[]): HTMLElement {
  const visitsInWords = wordTable("Visits, newest first", [
    ...["day", "why it came", "deepest wear, mm", "thinnest edge, mm", "found", "work done"],
  ]);
  visitsInWords.add(
    visits.map((visit) => [
      element("a", { href: visitPage(base, visit.number, visit.id) }, shortDayText(visit.date)),
      bdi(visit.reason),
      deepestText(visit.findings),
      edgeText(visit.findings),
      visit.withdrawn === null ? foundText(visit.findings) : "withdrawn: does not count",
      visit.afterVisit === null ? workWords[visit.workDone] : "measured again after the work",
    ]),
  );
  return visitsInWords.element;
}
