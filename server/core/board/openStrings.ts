/**
 * Pitches of the open strings from their names.
 *
 * A name with its octave ("E2") is taken as it stands. The lowest string's name without an octave is looked up in the
 * kind's table of usual pitches; every further name is the next such note above the string before it, since neighbours
 * lie less than an octave apart. So "C G D G" on a cello has two G strings, an octave apart: they become "G2" and "G3".
 * Pitches in semitones above C0 (A4, 440 Hz, is 57).
 */
import type { Fault } from "../fault.ts";
import type { TableKind } from "./instrumentTable.ts";
import { settingFault } from "./settingFault.ts";
import type { SettingEntry } from "./settings.ts";
import { readStringName } from "./stringNames.ts";

export type OpenStrings =
  | { readonly outcome: "tuned"; readonly names: readonly string[]; readonly pitches: readonly number[] }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** `entry`: where the workshop named the strings, undefined where the table did. */
export function openStrings(kind: TableKind, written: readonly string[], entry: SettingEntry | undefined): OpenStrings {
  const faulty = (saw: string, remedy: string): OpenStrings => ({
    outcome: "faulty",
    faults: [settingFault(entry, "strings-unknown", saw, remedy)],
  });
  const pitches: number[] = [];
  for (const name of written) {
    const note = readStringName(name);
    if (note === null) return faulty(`\`${name}\` is not the name of a string`, "Write letters A to G, lowest first.");
    const below = pitches.at(-1);
    if (note.octave !== null) {
      const pitch = 12 * note.octave + note.semitoneInOctave;
      if (below !== undefined && pitch <= below) {
        return faulty(`the string \`${name}\` is not above the one before it`, "Name the strings lowest first.");
      }
      pitches.push(pitch);
    } else if (below === undefined) {
      const usual = kind.pitches[note.name];
      if (usual === undefined) {
        return faulty(
          `the table has no usual pitch for a lowest string \`${name}\` on a ${kind.kind}`,
          `Write its octave (${note.name}3, say) or begin with one of: ${Object.keys(kind.pitches).join(", ")}.`,
        );
      }
      pitches.push(usual);
    } else {
      const stepUp = (note.semitoneInOctave - (below % 12) + 12) % 12;
      pitches.push(below + (stepUp === 0 ? 12 : stepUp));
    }
  }
  return { outcome: "tuned", names: uniqueNames(written, pitches), pitches };
}

/** Names that several strings share are told apart by their octaves. */
function uniqueNames(written: readonly string[], pitches: readonly number[]): readonly string[] {
  return written.map((name, index) => {
    const note = readStringName(name);
    const shared = written.filter((other) => readStringName(other)?.semitoneInOctave === note?.semitoneInOctave);
    if (shared.length < 2 || note === null || note.octave !== null) return name;
    return `${name}${Math.floor((pitches[index] ?? 0) / 12)}`;
  });
}
