/** Where the records stand on the server. `base` is "" for the workshop's own records and "/invented" for the invented loan store. */
export type Base = "" | "/invented";

export const instrumentAddress = (base: Base, number: string): string =>
  `${base}/api/instruments/${encodeURIComponent(number)}`;

export const visitAddress = (base: Base, number: string, id: string): string =>
  `${instrumentAddress(base, number)}/visits/${encodeURIComponent(id)}`;
