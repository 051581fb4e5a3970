/** The check finds what is wrong and says it in words; a sound store says nothing. */
import { expect, test } from "vitest";
import { instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { askDatabase, describeOnBothStores } from "../../support/storesForTests.ts";

describeOnBothStores("a check of the records", (stores) => {
  async function withVisits() {
    const where = await stores.newPlace();
    const store = await stores.open({ where });
    for (const number of ["C-07", "C-08"]) {
      await store.addInstrument(instrumentGiven(number));
      for (const day of ["2025-11-24", "2026-11-24"])
        await store.keepVisit(number, newVisit(day, number + day), outlookOf);
    }
    return { where, store };
  }
  const ofC07 =
    "(select id from visits where date = '2026-11-24' and instrument_id in (select id from instruments where number = 'C-07'))";
  const bytes = (hex: string) => (stores.kind === "SQLite" ? `x'${hex}'` : `'\\x${hex}'`);

  /** Past the refusals to change what is kept, as a fault of a disk is. */
  async function harmed(table: string, statement: string): Promise<readonly string[]> {
    const { where, store } = await withVisits();
    expect(await store.check()).toEqual([]);
    if (stores.kind === "SQLite") {
      for (const act of ["update", "delete"])
        await askDatabase(where, `drop trigger if exists ${table}_keep_from_${act}`);
      await askDatabase(where, statement);
    } else {
      await askDatabase(
        where,
        `alter table ${table} disable trigger all; ${statement}; alter table ${table} enable trigger all`,
      );
    }
    return store.check();
  }

  test("finds nothing in a sound store, nor in an empty one", async () => {
    expect(await (await stores.open()).check()).toEqual([]);
    const { store } = await withVisits();
    expect(await store.check()).toEqual([]);
  });

  test("names the file whose bytes are others", async () => {
    const file = `(select sha256 from visit_files where visit_id in ${ofC07})`;
    const other = `(select packed from files where sha256 <> ${file} limit 1)`;
    expect(await harmed("files", `update files set packed = ${other} where sha256 = ${file}`)).toEqual([
      "The readings file of C-07's visit of 2026-11-24 is no longer what was given.",
    ]);
  });

  test("names the file that does not unpack", async () => {
    const file = `(select sha256 from visit_files where visit_id in ${ofC07})`;
    expect(await harmed("files", `update files set packed = ${bytes("1f8b")} where sha256 = ${file}`)).toHaveLength(1);
  });

  test("names the examination that can't be read", async () => {
    expect(await harmed("examinations", `update examinations set findings = '{' where visit_id in ${ofC07}`)).toEqual([
      "Examination 1 of C-07's visit of 2026-11-24 can't be read.",
    ]);
  });

  test("names the visit whose readings are missing", async () => {
    expect(await harmed("visit_files", `delete from visit_files where visit_id in ${ofC07}`)).toContain(
      "The readings of C-07's visit of 2026-11-24 are missing.",
    );
  });

  test("names the visit that counts more examinations than there are", async () => {
    const wrong = await harmed("visit_notes", `update visit_notes set examinations = 2 where visit_id in ${ofC07}`);
    expect(wrong).toContain("Of C-07's visit of 2026-11-24 2 examinations were kept, and 1 are there.");
  });

  test("names the instrument whose visits are counted wrongly", async () => {
    expect(
      await harmed("instruments", "update instruments set visits = 3, last_visit = '2027-01-01' where number = 'C-08'"),
    ).toEqual([
      "C-08 counts 3 visits, and 2 are there.",
      "C-08's last visit is said to be 2027-01-01, and is 2026-11-24.",
    ]);
  });
});
