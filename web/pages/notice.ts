/**
 * What became of files just brought, told in a line over the sheet: which was taken, which left out, which waits, and what was said
 * before that goes on to the new board or is let go.
 */
import type { Sorted } from "./broughtFiles.ts";
import { type Said, saidInWords } from "./settingsSaid.ts";

export function noticeAbout(sorted: Sorted, kept: Said, letGo: Said): readonly string[] {
  const { board, waiting, leftOut } = sorted;
  const taken = [board?.readings, board?.thickness].flatMap((file) => (file ? [file.name] : []));
  const said = (settings: Said) => Object.entries(settings).map(saidInWords).join(", ");
  return [
    ...(waiting === null
      ? []
      : [
          `${waiting.name} waits: thickness alone says nothing about wear. Bring the height readings of the same board; what is on the sheet is another one.`,
        ]),
    ...(leftOut.length === 0
      ? []
      : [
          `One board at a time: ${taken.length > 0 ? `taken ${taken.join(" and ")}, ` : ""}left out ${leftOut.map((file) => file.name).join(", ")}.`,
        ]),
    ...(Object.keys(kept).length === 0 ? [] : [`Your gauge is kept from the board before: ${said(kept)}.`]),
    ...(Object.keys(letGo).length === 0 ? [] : [`Let go with the board before: ${said(letGo)}.`]),
  ];
}
