/**
 * One visit's sheet: the examination as it was kept, with the version of the program that made it.
 *
 * In: number and id of the address. Out: the sheet, to read and to print; nothing of it can be changed here.
 */
import { visit as askVisit } from "../api/visits.ts";
import { storyPage } from "../views/addresses.ts";
import { element, fill } from "../views/element.ts";
import { bdi, dayText } from "../views/recordWords.ts";
import { refusal } from "../views/refusal.ts";
import { answerSheet } from "./answerSheet.ts";
import type { Shell } from "./shell.ts";

export async function openVisit({ base, main }: Shell, number: string, id: string): Promise<void> {
  document.title = `${number} · Boardtrue`;
  const reply = await askVisit(base, number, id);
  const back = element("a", { href: storyPage(base, number) }, "Story of ", bdi(number));
  if (reply.outcome === "refused") {
    fill(main, element("p", { class: "said" }, ...refusal(reply), " ", back));
    return;
  }
  const { date, reason, examination, examined, given } = reply.body;
  const sheet = answerSheet();
  const files = given.files.map(({ part, href }) => element("a", { href }, `${part} as given`));
  fill(
    main,
    element("h1", { class: "page-name" }, bdi(number), `, ${dayText(date)}`),
    element("p", { class: "sheet-ways" }, back, ...files.flatMap((file) => [" · ", file])),
    sheet.element,
  );
  sheet.show(examination, element("p", {}, bdi(reason)), given.settings.aim === "own");
  sheet.foot([`Boardtrue ${examined.version}, examination ${examined.ordinal} of this visit.`]);
}
