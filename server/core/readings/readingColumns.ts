/**
 * Readings as written, one array a quantity: a million of them take some 33 MB instead of hundreds.
 *
 * Numbers stand in the file's own units, sign as written. Set-ups are counted in a byte: see `mostSetups`.
 */
import type { Mark } from "./readings.ts";

export type WrittenReading = {
  /** Line of the file, and the cell in which the height stands. */
  readonly row: number;
  readonly column: number;
  readonly x: number;
  /** NaN where the line has a name. */
  readonly y: number;
  /** Which of the file's line names; −1 where y is a number. */
  readonly nameIndex: number;
  readonly height: number;
  readonly mark: Mark | null;
  /** Which of the file's set-ups; 0 where it names none. */
  readonly setup: number;
};

export type ReadingColumns = {
  readonly count: number;
  at(index: number): WrittenReading;
};

export type GrowingReadings = ReadingColumns & { add(reading: WrittenReading): void };

/** A bench sets its rail up a dozen times; far more labels are something else (a time, a number of the reading). */
export const mostSetups = 200;

const marks: readonly (Mark | null)[] = [null, "lowest", "check"];

export function readingColumns(): GrowingReadings {
  let count = 0;
  let room = 256;
  let rows = new Uint32Array(room);
  let columns = new Uint32Array(room);
  let xs = new Float64Array(room);
  let ys = new Float64Array(room);
  let names = new Int32Array(room);
  let heights = new Float64Array(room);
  let markCodes = new Uint8Array(room);
  let setups = new Uint8Array(room);

  function grow(): void {
    room *= 2;
    rows = copyInto(new Uint32Array(room), rows);
    columns = copyInto(new Uint32Array(room), columns);
    xs = copyInto(new Float64Array(room), xs);
    ys = copyInto(new Float64Array(room), ys);
    names = copyInto(new Int32Array(room), names);
    heights = copyInto(new Float64Array(room), heights);
    markCodes = copyInto(new Uint8Array(room), markCodes);
    setups = copyInto(new Uint8Array(room), setups);
  }

  return {
    get count() {
      return count;
    },
    at(index) {
      if (index < 0 || index >= count) throw new RangeError(`no reading ${index} among ${count}`);
      return {
        row: rows[index]!,
        column: columns[index]!,
        x: xs[index]!,
        y: ys[index]!,
        nameIndex: names[index]!,
        height: heights[index]!,
        mark: marks[markCodes[index]!] ?? null,
        setup: setups[index]!,
      };
    },
    add(reading) {
      if (count === room) grow();
      rows[count] = reading.row;
      columns[count] = reading.column;
      xs[count] = reading.x;
      ys[count] = reading.y;
      names[count] = reading.nameIndex;
      heights[count] = reading.height;
      markCodes[count] = marks.indexOf(reading.mark);
      setups[count] = reading.setup;
      count += 1;
    },
  };
}

function copyInto<Numbers extends Uint32Array | Float64Array | Int32Array | Uint8Array>(
  bigger: Numbers,
  old: Numbers,
): Numbers {
  bigger.set(old);
  return bigger;
}
