/**
 * What is wrong with a file or a setting: where, what was seen, what to do. All of it at once.
 */
import type { Fault } from "../../server/core/fault.ts";
import { element, fill } from "./element.ts";

export function drawFaults(target: HTMLElement, faults: readonly Fault[], hasFormerAnswer: boolean): void {
  if (faults.length === 0) {
    target.hidden = true;
    fill(target);
    return;
  }
  target.hidden = false;
  const count = faults.length === 1 ? "One thing stands" : `${faults.length} things stand`;
  fill(
    target,
    element("h2", {}, `${count} in the way`),
    element(
      "ol",
      {},
      ...faults.map((fault) =>
        element("li", {}, element("strong", {}, placeOf(fault)), ` ${fault.saw}. ${fault.remedy}`),
      ),
    ),
    hasFormerAnswer ? element("p", {}, "The answer below is the former one. Nothing of it is lost.") : null,
  );
}

function placeOf(fault: Fault): string {
  const parts: string[] = [fault.where];
  if (fault.line !== null) parts.push(`line ${fault.line}`);
  if (fault.column !== null) parts.push(`column ${fault.column}`);
  return `${parts.join(", ")}:`;
}
