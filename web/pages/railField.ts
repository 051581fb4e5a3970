/**
 * The rail's own error in the settings drawer, folded away: few benches have surveyed theirs. A profile may be chosen, or left out.
 *
 * The profile that is taken along now (null: none) -> the field, and what is chosen in it.
 */
import { element, fill } from "../views/element.ts";

export type RailField = { readonly element: HTMLElement; readonly chosen: () => File | null };

export function railField(now: File | null): RailField {
  let kept = now;
  const picker = element("input", { type: "file", name: "rail", accept: ".csv,.tsv,.txt,text/csv" });
  const said = element("p", { class: "origin", id: "rail-now" });
  const leaveOut = element("button", { type: "button" }, "Leave the rail out");
  const say = () => {
    fill(
      said,
      kept === null
        ? "None taken along. A profile has the columns x and error, mm; “boardtrue rail” makes one from a survey over glass."
        : `Taken off the readings now: ${kept.name}.`,
    );
    leaveOut.hidden = kept === null;
  };
  leaveOut.addEventListener("click", () => {
    kept = null;
    picker.value = "";
    say();
  });
  say();
  return {
    element: element(
      "details",
      { class: "more", open: now !== null },
      element("summary", {}, "More: the rail’s own error"),
      element("label", {}, "Profile of the rail", picker),
      said,
      leaveOut,
    ),
    chosen: () => picker.files?.[0] ?? kept,
  };
}
