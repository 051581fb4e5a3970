/**
 * False alarms: what is named on boards that are worn nowhere.
 *
 * In: an unworn board of the bench. Out: whether wear, a hump or long waves are said, at each noise and under each setting.
 */
import type { BenchBoard } from "./benchBoard.ts";
import { readAtEachNoise } from "./boardRead.ts";
import { shareOf } from "./figures.ts";
import { type SetName, setNames, settingsAsked } from "./namingSets.ts";
import { type Cell, goal, percent, tableText } from "./table.ts";
import { examineBoard } from "./toolRun.ts";

/** At most this share of unworn boards. */
export const alarmGoal = 0.02;

export type Alarm = {
  readonly group: string;
  readonly set: SetName;
  readonly worn: boolean;
  readonly hump: boolean;
  readonly form: boolean;
};

/** What is named on an unworn board, at each noise. */
export function alarmsOn(board: BenchBoard): Alarm[] {
  return readAtEachNoise(board, false).flatMap(({ made, noiseMm }) =>
    setNames.flatMap((set): Alarm[] => {
      const examined = examineBoard(made, settingsAsked[set]);
      if (examined.outcome === "refused") return [];
      const { wornPlaces, surface } = examined.examination;
      return [
        {
          group: `${board.asked.family}, noise ${noiseMm}`,
          set,
          worn: wornPlaces.some(({ kind }) => kind !== "hump"),
          hump: wornPlaces.some(({ kind }) => kind === "hump"),
          form: (surface.formMm ?? 0) > 0,
        },
      ];
    }),
  );
}

export function alarmTable(title: string, groups: readonly (readonly [string, readonly Alarm[]])[]): string {
  const header = ["unworn boards", "setting", "boards", "any worn place", "any hump", "long waves said", "goals"];
  const rows = groups.flatMap(([name, alarms]) =>
    setNames.map((set): Cell[] => {
      const those = alarms.filter((one) => one.set === set);
      const [worn, hump] = [shareOf(those, (one) => one.worn), shareOf(those, (one) => one.hump)];
      return [
        name,
        set,
        String(those.length),
        percent(worn),
        percent(hump),
        percent(shareOf(those, (one) => one.form)),
        goal(Math.max(worn, hump) <= alarmGoal),
      ];
    }),
  );
  return tableText(title, header, rows);
}
