/**
 * What became of files just brought, told in a line over the sheet: which was taken, which left out, which waits, and what was said
 * before that goes on to the new board or is let go.
 */
import type { Sorted } from "./broughtFiles.ts";
import { type Said, saidInWords } from "./settingsSaid.ts";

/** `keptRail`: the rail's profile that goes on from the board before; null where none does. */
export function noticeAbout(sorted: Sorted, kept: Said, letGo: Said, keptRail: File | null): readonly string[] {
  const { board, waiting, leftOut } = sorted;
  const taken = [board?.readings, board?.thickness, board?.rail].flatMap((file) => (file ? [file.name] : []));
  const said = (settings: Said) => Object.entries(settings).map(saidInWords).join(", ");
  return [
    ...(waiting.thickness === null
      ? []
      : [
          `${waiting.thickness.name} waits: thickness alone says nothing about wear. Bring the height readings of the same board; what is on the sheet is another one.`,
        ]),
    ...(waiting.rail === null
      ? []
      : [
          `${waiting.rail.name} waits: the rail’s error comes off height readings. Bring those that were taken over this rail.`,
        ]),
    ...(leftOut.length === 0
      ? []
      : [
          `One board at a time: ${taken.length > 0 ? `taken ${taken.join(" and ")}, ` : ""}left out ${leftOut.map((file) => file.name).join(", ")}.`,
        ]),
    ...(Object.keys(kept).length === 0 ? [] : [`Your gauge is kept from the board before: ${said(kept)}.`]),
    ...(keptRail === null
      ? []
      : [`Your rail is kept from the board before: ${keptRail.name}. Another rail? Leave it out under Settings.`]),
    ...(Object.keys(letGo).length === 0 ? [] : [`Let go with the board before: ${said(letGo)}.`]),
  ];
}
