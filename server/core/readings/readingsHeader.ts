/**
 * The header of a readings file -> how its rows are laid out.
 *
 * A column of gaps makes it a file of gaps, a column of heights a list; otherwise the first column holds the crosslines and
 * every further one is a line of a grid, named or at a y. Anything else (thickness, no header at all, a misspelled column) is a
 * fault.
 */
import { settingTable } from "../board/settingTable.ts";
import type { ColumnName } from "./columnHeading.ts";
import type { FaultList } from "./faultList.ts";
import { type GapsLayout, gapsHeader } from "./gapsHeader.ts";
import { type GridLayout, gridHeader } from "./gridHeader.ts";
import { headedColumns } from "./headedColumns.ts";
import { type ListLayout, listHeader } from "./listHeader.ts";
import { numberInCell } from "./numberInCell.ts";
import type { Header } from "./tableReader.ts";

export type ReadingsLayout = ListLayout | GridLayout | GapsLayout;

export function readingsHeader(header: Header, faults: FaultList): ReadingsLayout | null {
  const columns = headedColumns(header);
  const { cells, headings, place, inWords } = columns;
  const has = (name: ColumnName) => headings.some((heading) => heading?.name === name);

  const before = faults.total();
  if (has("gap")) {
    const gaps = gapsHeader(columns, faults);
    return faults.total() === before ? gaps : null;
  }
  if (has("thickness")) {
    faults.add(
      place(),
      "thickness-file",
      "a file of thicknesses where readings belong",
      "Give this file as the thickness file, and a list or grid of heights as the readings.",
    );
    return null;
  }
  if (has("error")) {
    faults.add(
      place(),
      "rail-profile",
      "a rail's error profile where readings belong",
      "Give this file as the rail's profile, and a list or grid of heights as the readings.",
    );
    return null;
  }
  if (numberInCell(cells[0] ?? "", header.delimiter !== ",").outcome === "number") {
    faults.add(
      place(),
      "header-missing",
      `numbers where the header belongs: ${inWords}`,
      "Put a header above the rows: `x,y,height` for a list, or `x` and the names of the lines for a grid.",
    );
    return null;
  }
  const key = (cells[0] ?? "").toLowerCase().replace(/[\s-]+/g, "_");
  if (settingTable.some((setting) => setting.key === key)) {
    faults.add(
      place(),
      "setting-without-hash",
      `a setting where the header belongs: ${inWords}`,
      `Write settings as \`# ${key}: …\`, each on a line of its own above the header.`,
    );
    return null;
  }
  const isList = has("height") || has("depth") || has("y") || has("line");
  const layout = isList ? listHeader(columns, faults) : gridHeader(columns, faults);
  return faults.total() === before ? layout : null;
}
