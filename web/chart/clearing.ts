/**
 * Clear room on a drawing: labels claim boxes, and none may touch another.
 *
 * Boxes in px -> whether the room was free (then it is taken). Those who come first get the room, so callers bring the deepest
 * soundings first. Boxes are filed by square, so thousands of claims stay quick.
 */
export type Box = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };

export type Clearing = { readonly claim: (box: Box) => boolean; readonly isFree: (box: Box) => boolean };

const squarePx = 40;

export function clearing(): Clearing {
  const taken = new Map<string, Box[]>();
  const squares = (box: Box): string[] => {
    const keys: string[] = [];
    for (let column = Math.floor(box.left / squarePx); column <= Math.floor(box.right / squarePx); column++) {
      for (let row = Math.floor(box.top / squarePx); row <= Math.floor(box.bottom / squarePx); row++) {
        keys.push(`${column} ${row}`);
      }
    }
    return keys;
  };
  const isFree = (box: Box) =>
    squares(box).every((key) => !(taken.get(key) ?? []).some((other) => overlaps(box, other)));
  return {
    isFree,
    claim: (box) => {
      if (!isFree(box)) return false;
      for (const key of squares(box)) taken.set(key, [...(taken.get(key) ?? []), box]);
      return true;
    },
  };
}

const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/**
 * The box of a text centred at a place. A character is 0.64 of its size wide, as the digits of the widest common text faces are; figures
 * have neither tails nor accents, so 0.43 of the size stands above and below their middle.
 */
export function textBox(xPx: number, yPx: number, text: string, sizePx: number, roundPx = 1): Box {
  const half = (text.length * sizePx * 0.64) / 2 + roundPx;
  return {
    left: xPx - half,
    right: xPx + half,
    top: yPx - sizePx * 0.43 - roundPx,
    bottom: yPx + sizePx * 0.43 + roundPx,
  };
}
