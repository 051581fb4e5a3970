/**
 * In which order an instrument's visits come in: as the archive lists them, but one that measures again after another comes behind that.
 *
 * In: the archive, the instrument's folder, its visits' folders. Out: the same folders, each once. Those that can't be read keep their place:
 * they are refused in words when their turn comes.
 */
import type { ArchiveIn } from "./archiveIn.ts";
import { type MemberLimits, readVisitFile } from "./visitIn.ts";
import { Unreadable } from "./zipIn.ts";

export async function visitsInOrder(
  archive: ArchiveIn,
  folder: string,
  visits: readonly string[],
  limits: MemberLimits,
): Promise<ReadonlySet<string>> {
  const byId = new Map<string, string>();
  const afterOf = new Map<string, string>();
  for (const visit of visits) {
    try {
      const { id, notes } = await readVisitFile(archive, `${folder}visits/${visit}/`, limits);
      byId.set(id, visit);
      if (notes.afterVisit !== null) afterOf.set(visit, notes.afterVisit);
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
    }
  }
  const ordered = new Set<string>();
  for (const visit of visits) {
    const chain = new Set<string>();
    for (let next: string | undefined = visit; next !== undefined && !ordered.has(next) && !chain.has(next); ) {
      chain.add(next);
      next = byId.get(afterOf.get(next) ?? "");
    }
    for (const one of [...chain].reverse()) ordered.add(one);
  }
  return ordered;
}
