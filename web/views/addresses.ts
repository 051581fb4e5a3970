/** Where each page stands. `base` is "" for the workshop's own records and "/invented" for the invented loan store. */
export const benchPage = (base: string, number: string | null = null): string =>
  `${base}/${number === null ? "" : `?instrument=${encodeURIComponent(number)}`}`;
export const instrumentsPage = (base: string): string => `${base}/instruments`;
export const storyPage = (base: string, number: string): string => `${base}/instruments/${encodeURIComponent(number)}`;
export const visitPage = (base: string, number: string, id: string): string =>
  `${storyPage(base, number)}/visits/${encodeURIComponent(id)}`;
export const duePage = (base: string): string => `${base}/due`;
