/**
 * What a full survey always tells, taken out of a field that a quick look leaves null. Throws where it is null after all.
 */
export function known<Kind>(value: Kind | null): Kind {
  if (value === null) throw new Error("a full survey left something open");
  return value;
}
