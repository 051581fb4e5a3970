/**
 * Files dropped anywhere on the page; while they hang over it the whole page says that it will take them.
 *
 * A drag enters and leaves every element on its way: the page is left when as many were left as entered.
 */
export function listenForDrops(dropHere: HTMLElement, take: (files: readonly File[]) => void): void {
  let depth = 0;
  const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") === true;
  addEventListener("dragenter", (event) => {
    if (!carriesFiles(event)) return;
    depth += 1;
    dropHere.hidden = false;
  });
  addEventListener("dragleave", () => {
    depth = Math.max(0, depth - 1);
    if (depth === 0) dropHere.hidden = true;
  });
  addEventListener("dragover", (event) => {
    if (carriesFiles(event)) event.preventDefault();
  });
  addEventListener("drop", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    depth = 0;
    dropHere.hidden = true;
    take([...(event.dataTransfer?.files ?? [])]);
  });
}
