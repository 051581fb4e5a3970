/** `boardtrue help`: every task on one page, or every setting. Lines of at most 80 characters, for any terminal. */
import { settingTable } from "../core/board/settingTable.ts";
import { settingsHelp } from "../reports/settingsHelp.ts";
import { print } from "./print.ts";

const help = `\
boardtrue examine READINGS.csv --instrument cello [--thickness THICKNESS.csv]
                  [--set key=value …] [--json [--no-points]]
    What the board needs, from height readings on a grid; or a quick look,
    from fifteen of them or from gaps under a straightedge or a template.
    READINGS.csv or THICKNESS.csv may be - for standard input.
    --set rail_error=RAIL.csv takes the rail's own error off the readings.

boardtrue grid --instrument cello [--readings 77] [--set key=value …]
    An empty grid to fill in at the bench (CSV).

boardtrue rail READINGS.csv [--set key=value …]
    The rail's error profile (CSV), from a survey of a straightedge or a glass:
    columns x and height, one pass or more. A bar with parallel edges, read
    again turned over (its other edge up) as a second setup, may be bowed.

boardtrue serve
    The page, at http://127.0.0.1:4870/ (another port: set PORT).
    For others in the network: set HOST, after the owner has a password.

boardtrue password owner
boardtrue password bench
    Sets the password of a role, asked for here or read from standard input,
    and signs that role out everywhere.

The workshop's own records, also while the page is served (they lie in the
folder that BOARDTRUE_DATA names, or in the database of DATABASE_URL):

boardtrue export ARCHIVE.zip [--without-players]
    Everything, as plain CSV and JSON that anybody can read; with or without
    what was noted about players.
boardtrue import ARCHIVE.zip
    Takes such an archive in. What is there already stays as it is.
boardtrue backup FILE
    A whole copy of the store (SQLite).
boardtrue check
    Whether the store is sound.
boardtrue examine-again [NUMBER]
    Kept readings examined by this version, and what that changes: of one
    instrument, or all that another version examined.
boardtrue due
    Which boards are due, the most urgent first.
boardtrue history NUMBER
    One instrument's visits as CSV.

boardtrue help
boardtrue help settings
    Every setting that a file or --set may hold.
boardtrue version

Exit status: 0 an answer, 1 faults in what was given, 2 a wrong call.
`;

export async function printHelp([about]: readonly string[] = []): Promise<void> {
  await print([about === "settings" ? settingsHelp(settingTable) : help]);
}
