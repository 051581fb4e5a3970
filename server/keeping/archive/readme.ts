/** The page that lies on top of every archive, for whoever finds it in twenty years without the program. */
export const readme = `\
RECORDS OF A WORKSHOP FOR BOWED INSTRUMENTS: FINGERBOARDS

This archive holds everything that was kept about them: instruments, visits,
readings as they were taken, and what was found. All of it is plain text:
CSV (comma-separated tables, UTF-8) and JSON (UTF-8). No program is needed to
read it; Boardtrue takes all of it back in (boardtrue import ARCHIVE.zip).

instruments.csv   one row for each instrument
visits.csv        one row for each visit, with the main findings
instruments/      a folder for each instrument, named after its number where
                  that has letters, digits and dashes only
  instrument.json       number, kind and size, label, strings, build,
                        dimensions that differ from the usual, and the visits
                        in order, oldest first
  visits/DATE-ID/       a folder for each visit
    visit.json          why it came, gauge, rail, humidity, what was decided
                        and done, settings, files, findings
    readings.csv        the readings, byte for byte as they were given
    thickness.csv       thickness of the board, likewise, where measured
    rail.csv            the rail's own error, likewise, where given
    examination-1.json  all that was found, by the version of the program that
                        it names; -2, -3 … where it was examined again
    player.json         notes about the player, where there are any
archive.json      which form of archive this is
sha256sums.txt    a check sum of every other file: sha256sum -c sha256sums.txt

WHAT CONCERNS A PERSON stands in the files player.json and nowhere else. Delete
them, or export with --without-players, before you hand this archive on.
Passwords are never in it.

Lengths are in millimetres. x runs along the board from the nut, y across it
from the centreline, positive towards the highest string. Every u is an
expanded uncertainty (coverage factor 2): about 95 of 100 times the truth lies
within. Wear is positive where wood is missing. Days and times are ISO 8601.

In instruments.csv and visits.csv a text that a spreadsheet would take for a
formula (it begins with = + - @) has an apostrophe in front. The files in the
visits' folders are as they were given: open with care what comes from others.
`;
