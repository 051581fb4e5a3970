/**
 * What hangs together, against the examples of two image-processing manuals (figures and source: connectedCells.json).
 * With endless prominence worn places are plain labels of connected cells, corners counting as neighbours.
 */
import { expect, test } from "vitest";
import { peakRegions } from "../../server/core/maths/peakRegions.ts";
import published from "./connectedCells.json" with { type: "json" };

const labelling = { threshold: 1, prominence: Number.POSITIVE_INFINITY, leastProminence: 0 };

test.each(published.cases)("the cells of example $# hang together as published", ({ field, labels, sizes }) => {
  const found = labelled(field);
  expect(found).toEqual(labels);
  const all = found.flat();
  expect(sizes.map((_, i) => all.filter((label) => label === i + 1).length)).toEqual(sizes);
});

test.each(published.cases)("corners count: example $# has more regions without them", ({ field, labelsOfFour }) => {
  expect(labelled(field)).not.toEqual(labelsOfFour);
});

test.each(published.cases)("how high the cells are changes nothing of that in example $#", ({ field, labels }) => {
  // Peaks and saddles of every order: heights from 1 to 7 spread over the cells.
  const uneven = field.map((line, row) => line.map((cell, column) => cell * (1 + ((3 * row + 5 * column) % 7))));
  expect(labelled(uneven)).toEqual(labels);
});

/** Labels from 1 in the order in which rows meet them; 0 outside. */
function labelled(field: readonly (readonly number[])[]): number[][] {
  const regionOf = new Map<string, number>();
  peakRegions(field, labelling).regions.forEach((cells, region) => {
    for (const { row, column } of cells) regionOf.set(`${row} ${column}`, region);
  });
  const met: number[] = [];
  return field.map((line, row) =>
    line.map((_, column) => {
      const region = regionOf.get(`${row} ${column}`);
      if (region === undefined) return 0;
      if (!met.includes(region)) met.push(region);
      return met.indexOf(region) + 1;
    }),
  );
}
